"""The long-run level of a parameter, non-detects counted in, against a limit."""
