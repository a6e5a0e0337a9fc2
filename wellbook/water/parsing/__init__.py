"""From what a lab printed to a reading: figures, comparators, flags and the lab's phrases."""
