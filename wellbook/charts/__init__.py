"""Charts: what one parameter did over the years, the wheel of the year, and ions.

A chart is first a frozen description (`model`), which tests compare and screen readers speak;
then geometry on paper (`layout`), then a drawing (`draw`), the thin step that window and packet
share. Imports `wording`, `water` and `support`; no screen, no store. Data comes in as plain
results, catalogue and `EventMark`s. matplotlib is imported by `layout.backend` alone, and inside
functions, so that nothing here costs start-up time.
"""
