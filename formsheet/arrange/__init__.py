"""The search: the same music laid on another harp, position or tuning."""
