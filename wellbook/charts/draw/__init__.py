"""The drawing of a laid out chart with matplotlib."""
