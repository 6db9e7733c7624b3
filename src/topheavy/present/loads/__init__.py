"""The load at any height of a rig: points, view and text."""
