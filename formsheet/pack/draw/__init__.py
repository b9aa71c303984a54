"""Drawing: from the values of `pack/view.py` to drawings. Lengths are millimetres, type is points."""
