"""Drawings of the values of `pack/view.py`. Lengths are in millimetres, type sizes in points."""
