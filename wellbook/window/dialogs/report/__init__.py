"""A report as it was sent, with one place of it lit."""
