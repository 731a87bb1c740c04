"""Makers' own forms: a PDF with fields, or with places on its pages, and the mapping that fills it."""
