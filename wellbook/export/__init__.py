"""Files for other programs and for the wall: tables, workbook, calendar, field sheet, pictures.

Imports `sharing` and what lies under it. Files go to the place that a person names.
"""
