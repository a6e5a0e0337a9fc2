"""Questions to the person: events, points, corrections, settings, keys."""
