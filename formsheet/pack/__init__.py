"""The handout: what a sheet, a card, a clip and a page show, and the files made of it."""
