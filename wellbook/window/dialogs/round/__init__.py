"""The dialog of the next sampling."""
