"""The record: one SQLite file per household that never loses or quietly changes a fact.

`Book` is the only door. `rows` holds the values that go in and come out, `schema` the tables,
`opening` the pragmas and faults, `writer` the one write path, `journal` the chained log of it.
Imports `water` and `support`. Data comes from `intake`, the window and the commands; it goes to
`planning`, `sharing`, `packet` and the window, and as plain values to `charts`.
"""

from wellbook.book.book import Book

__all__ = ["Book"]
