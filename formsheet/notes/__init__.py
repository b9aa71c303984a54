"""Melodies out of files and words: pitches, rhythm, key and meter, no tab yet."""
