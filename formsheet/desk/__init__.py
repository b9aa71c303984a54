"""The teacher's desk: a new lesson to start from, and a preview that updates on every save."""
