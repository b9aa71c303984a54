"""The tune for other places: a message, other programs, notation programs."""
