"""The review as a page, as a sheet to print and for programs."""

from topheavy.web.review.routes import review_routes

__all__ = ["review_routes"]
