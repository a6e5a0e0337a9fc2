"""Sentences that people write, and the readings within them."""
