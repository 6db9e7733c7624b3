"""A rig matched to a lifter's strength: view, text and curves."""
