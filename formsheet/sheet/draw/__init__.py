"""Drawings of the values of `sheet/view.py`. Lengths are in millimetres, type sizes in points."""
