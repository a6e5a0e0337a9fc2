"""What may leave the house: an excerpt of a book, redacted, as tables and as JSON.

Imports `book`, `planning`, `wording`, `water`, `sandbox` and `support`. What is made here goes to
`packet`, `export` and the window.
"""
