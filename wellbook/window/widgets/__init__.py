"""Building blocks of pages and dialogs: tables, charts, message bar, layouts."""
