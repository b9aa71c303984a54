"""Facts of music and of the harmonica, and what follows from them.

Imports nothing from other packages of formsheet.
"""
