"""What hangs against a scale: view, text and drawing."""
