"""The words of the language in one table each: facts, other lines, techniques.

Parser, printer, hints, reference, completion and the options of commands follow from the tables.
"""
