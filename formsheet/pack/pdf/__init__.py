"""Drawings put into the PDF as they are, beside what WeasyPrint sets."""
