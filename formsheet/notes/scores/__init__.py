"""Scores: MusicXML in, as a melody with its chords, its swing and its bars."""
