"""Paper: its style, tables and flowables, the document, forms to stamp, and the seal.

Knows no record and no packet. Imports `water`, `wording` and `support`, and reportlab and pypdf.
"""
