"""The lesson: the syntax tree of a file turned into musical values, every name resolved."""
