"""Statics and motion of chain on a barbell: arrays and frozen values in, values out."""
