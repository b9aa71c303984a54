"""Drawing: from the values of `pack/view.py` to SVG. Lengths are millimetres, type is points."""
