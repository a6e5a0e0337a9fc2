"""What every part of the window uses: theme, words, jobs, preferences, the household."""
