"""The printed sheet and the lick cards: their content, drawing and typesetting."""
