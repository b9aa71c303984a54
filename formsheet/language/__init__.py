"""The lesson language: text to syntax tree. Knows nothing of music."""
