"""Along the years: trends, steps, summaries and removal, with non-detects as they are."""
