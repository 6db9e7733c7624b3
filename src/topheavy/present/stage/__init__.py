"""The rig as it moves: shapes at every height of the bar, for a page that lets you drag it."""

from topheavy.present.stage.encoded import encode_motion, encode_stage
from topheavy.present.stage.poses import hung_straight_scene, moving
from topheavy.present.stage.stage import Stage, view_stage

__all__ = ["Stage", "encode_motion", "encode_stage", "hung_straight_scene", "moving", "view_stage"]
