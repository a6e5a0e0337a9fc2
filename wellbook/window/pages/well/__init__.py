"""The page of a well with its sections: points, treatment, labs, plans, the log."""
