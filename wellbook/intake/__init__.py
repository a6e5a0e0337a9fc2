"""From a lab's file to a draft that a person can review, and from there into the book.

`read` takes a file of any kind apart, `read_pasted` what was copied: cells (`files`, `pages`),
tables and the words beside them (`tables`, `words`), results and samples (`samples`). What a lab
did oddly becomes a finding of the draft, what was not taken is listed with its place; only a file
without a table of results, or a damaged one, raises.
`review` asks what is odd about the samples, `store` puts a draft into the book, all of it or
nothing. Imports `water` and `book`; data comes from lab files and goes to the book, by way of the
window and the commands.
"""

from wellbook.intake.already import AlreadyThere, Contradicts, Told
from wellbook.intake.draft import Draft, DraftSample, Stored
from wellbook.intake.files.sheets import Place, Sheet
from wellbook.intake.lab_files import read, read_pasted, sheets_of_kept
from wellbook.intake.pages.pictures import PagePicture, page_of_file, page_picture
from wellbook.intake.pages.words import Locked, places_of
from wellbook.intake.review import review
from wellbook.intake.store import keep, store
from wellbook.intake.tables.tables import NotTaken
from wellbook.intake.words.dates import Order

__all__ = [
    "AlreadyThere",
    "Contradicts",
    "Draft",
    "DraftSample",
    "Locked",
    "NotTaken",
    "Order",
    "PagePicture",
    "Place",
    "Sheet",
    "Stored",
    "Told",
    "keep",
    "page_of_file",
    "page_picture",
    "places_of",
    "read",
    "read_pasted",
    "review",
    "sheets_of_kept",
    "store",
]
