"""How the bar moves: the rep with a rig, side by side with others, and speed work."""
