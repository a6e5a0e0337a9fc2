"""Printing: what is put on paper, shown before it is, and sent to a printer."""
