"""What is due and what stands out: settings, routes to the lab, rounds, reminders, the overview.

Imports `book`, `water`, `wording` and `support`. Facts come from a book; plain values go to the
window, the packet, the exports and the commands.
"""
