"""Drawings made from the values of `pack/view.py`. Lengths are millimetres, type is points."""
