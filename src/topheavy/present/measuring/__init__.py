"""How to measure a lifter's heights: step by step, and a drawing of where the tape goes."""

from topheavy.present.measuring.drawing import End, measuring_svg
from topheavy.present.measuring.words import Guide, guide_to

__all__ = ["End", "Guide", "guide_to", "measuring_svg"]
