"""The lesson: a file's words turned into musical values, every name looked up."""
