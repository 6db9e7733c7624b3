"""Speed work with chain and without: view and text."""
