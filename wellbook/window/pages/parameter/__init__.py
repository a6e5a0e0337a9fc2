"""One parameter at one point: its picture, its results in figures, its limits."""
