"""Strength by height: view, text and curve."""
