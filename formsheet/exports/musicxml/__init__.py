"""`tune.musicxml`: the tune for a notation program, MusicXML 4.0."""
