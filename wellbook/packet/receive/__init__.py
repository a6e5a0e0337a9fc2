"""A packet from somebody: opened in the sandbox, looked over, verified, and taken into a book."""
