"""At the rack: the day's work on a phone, the log that is written there, and who gives work."""

from topheavy.web.rack.routes import rack_routes

__all__ = ["rack_routes"]
