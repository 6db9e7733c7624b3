"""topheavy: hang chain on a barbell so that it loads the lifter where the lifter is strong."""

__version__ = "0.1.0"
