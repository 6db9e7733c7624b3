"""What hangs checked against a scale: compare, fit, and say what is off and why."""
