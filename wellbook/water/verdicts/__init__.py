"""How readings stand to limits, and what to be careful about."""
