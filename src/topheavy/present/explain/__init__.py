"""The page for the lifter: why the chain, how it feels, and what it does not promise."""

from topheavy.present.explain.page import explain_pdf
from topheavy.present.explain.view import ExplainView, view_explained

__all__ = ["ExplainView", "explain_pdf", "view_explained"]
