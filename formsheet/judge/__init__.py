"""The checks of a tune: can it be played, does it fit the chords, how does it feel to play."""
