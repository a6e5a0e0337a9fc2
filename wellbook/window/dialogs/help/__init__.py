"""Help in the window: first steps, what each word means, and what this program is."""
