"""The handout: the content of sheet, cards, clips and page, and the files made from it."""
