"""The dialog of the copies of a book."""
