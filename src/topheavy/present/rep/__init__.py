"""How the bar moves: view, text and words."""
