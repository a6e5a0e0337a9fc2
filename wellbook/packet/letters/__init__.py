"""Letters of one page on the results: to a doctor, a treatment dealer, a health department."""
