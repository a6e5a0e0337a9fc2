"""The program on screen: its start, the main window, the open book, what runs beside."""
