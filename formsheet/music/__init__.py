"""Facts of music and of the harmonica, and what follows from them. Imports nothing of ours."""
