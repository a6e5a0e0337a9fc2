"""PDFs with text: words with boxes, put into rows and cells.

The PDF itself is read in a process of its own.
"""
