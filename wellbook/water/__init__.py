"""What numbers mean: readings, units, parameters, limits, verdicts, trends, seasons, schedules.

Pure functions and frozen values. Nothing here knows a screen, a file format or a database; the
reference data comes in as a `Catalogue`, read from a folder that the caller names.
Imports nothing of ours. Data comes from `intake` (a lab's words) and `book` (the record), and
goes to `charts`, `handover`, `window` and `cli`.
"""
