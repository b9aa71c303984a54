"""What a careful colleague would say: can it be played, does it fit, how does it feel."""
