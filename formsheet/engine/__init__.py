"""The build engine: what has to be made, made once, whole or not at all."""
