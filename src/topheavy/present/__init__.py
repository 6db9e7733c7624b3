"""Answers made visible: views, terminal, JSON, picture and card. No arithmetic of the trade."""
