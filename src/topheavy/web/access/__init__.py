"""Who may come in, as what, and what every request brings along."""

from topheavy.web.access.said import back_to
from topheavy.web.access.visit import Coach, SignedIn, Visitor

__all__ = ["Coach", "SignedIn", "Visitor", "back_to"]
