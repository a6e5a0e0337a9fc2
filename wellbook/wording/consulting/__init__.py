"""What a consultant or treatment dealer reads, in sentences."""
