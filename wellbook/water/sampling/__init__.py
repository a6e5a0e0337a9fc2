"""When and how to test: intervals, follow-ups, cases, shipping and the timetable of a day."""
