"""What a reader asks first, in sentences: where it stands, what is open, what is not known.

Imports what `gather` made; the pages put it on paper.
"""
