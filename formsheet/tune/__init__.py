"""The tune: licks laid over the form, one timeline of bars and notes."""
