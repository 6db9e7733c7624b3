"""Property tests run without a deadline: machines shared by many pause at will."""

from hypothesis import settings

settings.register_profile("topheavy", deadline=None)
settings.load_profile("topheavy")
