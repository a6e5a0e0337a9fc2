"""What leaves the house: the history PDF, tables and records that others can read.

`packet` writes the PDF, `tables` the open tables, `record` the whole book as one JSON text;
`verify` checks a packet and `receive` makes a new book from one. `history` gathers the facts as
plain values, the `*_pages` modules set them on pages; `sheet`, `grid` and `stamping` know the
paper.
Imports `water`, `book` and `charts`. Facts come from a book; files go to the folder that a person
names. Only the modules that set pages load reportlab, pypdf and matplotlib, and `packet` loads
those when it is called.
"""
