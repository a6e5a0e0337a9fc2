"""What a household chose, and what follows from its place where it did not."""
