"""What makes the generated pages of the docs."""
