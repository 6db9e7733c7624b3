"""Chain by standard and by calipers: view and text."""
