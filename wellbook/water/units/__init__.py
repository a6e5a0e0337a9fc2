"""Units as labs spell them, what they are exactly, the basis they are on, and conversion."""
