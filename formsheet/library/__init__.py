"""A whole folder of lessons and shelves: what is used where, and what is much alike."""
