"""Melodies read from files or words: pitches, rhythm, key and meter, without tab."""
