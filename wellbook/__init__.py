"""Wellbook: a record keeper for the households that drink from a private well.

The packages, from the inside out: `water` says what numbers mean, `book` keeps the record,
`charts` draws it, `intake` reads lab files, `handover` writes the history PDF, `window` is the
screen and `cli` the commands. Arrows point one way only; DEVELOPERS.md shows them.
"""

__version__ = "0.1.0"
