"""The commands that hand a history over, and that check one and take it in."""
