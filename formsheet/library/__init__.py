"""A whole folder of lessons and shelves: what is used where, and which licks are similar."""
