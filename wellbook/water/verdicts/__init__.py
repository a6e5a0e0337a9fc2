"""How readings stand to limits."""
