"""Curves over height: a lifter's strength and what rigs put on the bar, in one drawing."""

from topheavy.present.curves.draw import curves_svg
from topheavy.present.curves.given import Curve, CurveSheet, Kind, Note, Strength

__all__ = ["Curve", "CurveSheet", "Kind", "Note", "Strength", "curves_svg"]
