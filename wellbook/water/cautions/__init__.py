"""What is usually said and done about water that is outside a limit, and to whom."""
