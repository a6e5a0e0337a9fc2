"""The pages of an open book, one module each, and the rows that they show."""
