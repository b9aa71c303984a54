"""The search for tab: the same music on another harp, in another position or tuning."""
