"""The build engine: finds what is stale and makes it, each handout whole or not at all."""
