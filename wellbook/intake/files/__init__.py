"""What a lab sent, as cells: text tables, workbooks, archives."""
