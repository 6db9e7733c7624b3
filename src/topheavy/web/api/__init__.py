"""The same answers for programs: JSON over HTTP, described by OpenAPI."""

from topheavy.web.api.rig import api_routes, pdf

__all__ = ["api_routes", "pdf"]
