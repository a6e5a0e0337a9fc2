"""What labs write: headings, names, dates, codes, and what each of them means."""
