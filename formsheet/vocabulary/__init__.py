"""The words of the language, in tables: facts, other lines, techniques.

Parser, printer, hints, reference, completion and command options are derived from these tables.
"""
