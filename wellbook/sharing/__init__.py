"""What may leave the house: an excerpt of a book, redacted, as tables and as JSON.

Imports `book`, `planning`, `wording`, `water`, `sandbox` and `support`. What is made here goes to
`packet`, `export` and the window.
"""

RECORD = "record.json"  # the file of the whole record; here, as to know its name loads nothing
