"""What a log says of a lifter's training: a view, and its forms."""
