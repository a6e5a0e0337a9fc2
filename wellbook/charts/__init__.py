"""Charts: what one parameter did over the years, and the wheel of the year.

A chart is first a frozen description (`describe.chart`, `wheel.wheel`), which tests compare and
screen readers speak; drawing it (`draw`) is the thin second step that window and packet share.
Imports `water` and the two leaves `faults` and `places`; no screen, no store. Data comes in as
plain results, catalogue and `EventMark`s; it goes to `handover`, `window` and `cli`.
matplotlib is imported by `backend` alone, and inside functions, so that nothing here costs
start-up time.
"""
