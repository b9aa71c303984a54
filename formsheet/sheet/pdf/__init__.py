"""Drawings written directly into the PDF that WeasyPrint makes."""
