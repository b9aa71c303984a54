"""A lick on another chord: the same rhythm and contour, each degree mapped."""
