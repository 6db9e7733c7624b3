"""The picture of a rig, to scale: bar at the bottom and at the top, load curve beside it."""

from topheavy.present.picture.draw import draw_rig
from topheavy.present.picture.png import to_png
from topheavy.present.picture.scene import Disc, HangNote, Scene

__all__ = ["Disc", "HangNote", "Scene", "draw_rig", "to_png"]
