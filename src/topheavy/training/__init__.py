"""Training with a rig: percentages with their bases, ramps, attempts, sessions."""
