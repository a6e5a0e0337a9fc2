"""What numbers mean: values and pure functions.

Nothing here knows a screen, a file format or a database; the reference data comes in as a
`Catalogue`, read from a folder that the caller names. `values` holds what is passed around,
`units` and `parsing` read figures, `verdicts` compares them with limits, `statistics` looks along
the years, `plausibility` asks about reports, `chemistry` relates parameters, `sampling` says when
and how to test. What it finds comes as codes and figures, which `wording` says (the sentences that
are left here are on their way there). Imports nothing of ours. Data comes from `intake` (a
lab's words) and `book` (the record), and goes to every other room.
"""
