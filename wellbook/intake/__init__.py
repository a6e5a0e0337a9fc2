"""From a lab's file to a draft that a person can review, and from there into the book.

`read` takes a file apart, `read_pasted` what was copied: cells (`text_tables`, `spreadsheets`),
tables and the words beside them (`layout`, `columns`, `headings`, `crosstabs`), results
(`results`), samples (`samples`). What a lab did oddly becomes a finding of the draft; only a file
that is no table, or is damaged, raises.
`review` asks what is odd about the samples, `store` puts a draft into the book, all of it or
nothing. Imports `water` and `book`; data comes from lab files and goes to the book, by way of the
window and the commands.
"""

from wellbook.intake.already import AlreadyThere
from wellbook.intake.draft import NO_DAY, Draft, DraftSample, Stored
from wellbook.intake.lab_files import read, read_pasted
from wellbook.intake.review import review
from wellbook.intake.store import store
from wellbook.intake.words.dates import Order

__all__ = [
    "NO_DAY",
    "AlreadyThere",
    "Draft",
    "DraftSample",
    "Order",
    "Stored",
    "read",
    "read_pasted",
    "review",
    "store",
]
