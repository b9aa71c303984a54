"""formsheet: from a plain-text harmonica lesson to a handout that a student can learn from."""

__version__ = "0.1.0"
