"""What is passed around: readings, results, parameters, limits, moments, seasons, findings."""
