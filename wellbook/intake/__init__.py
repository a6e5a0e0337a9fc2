"""From a lab's file to a draft that a person can review, and from there into the book.

`read` takes a file of any kind apart, `read_pasted` what was copied: cells (`files`, `pages`),
tables and the words beside them (`tables`, `words`), results and samples (`samples`). What a lab
did oddly becomes a finding of the draft, what was not taken is listed with its place; only a file
without a table of results, or a damaged one, raises.
`review` asks what is odd about the samples, `store` puts a draft into the book, all of it or
nothing. Imports `water` and `book`; data comes from lab files and goes to the book, by way of the
window and the commands.

Each name is loaded when it is first asked for: reading files takes a hundred modules, and who shows
a place in a report needs one of them.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wellbook.intake.already import AlreadyThere, Contradicts, Told
    from wellbook.intake.draft import Draft, DraftSample, Stored
    from wellbook.intake.files.kinds import ENDINGS
    from wellbook.intake.files.sheets import Place, Sheet
    from wellbook.intake.lab_files import read, read_pasted, sheets_of_kept
    from wellbook.intake.pages.pictures import PagePicture, page_of_file, page_picture
    from wellbook.intake.pages.words import Locked, places_of
    from wellbook.intake.reviewing import review
    from wellbook.intake.storing import keep, store
    from wellbook.intake.tables.tables import NotTaken
    from wellbook.intake.words.dates import Order, in_iso

__all__ = [
    "ENDINGS",
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
    "in_iso",
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

_ROOMS = {
    "ENDINGS": "files.kinds",
    "AlreadyThere": "already",
    "Contradicts": "already",
    "Draft": "draft",
    "DraftSample": "draft",
    "Locked": "pages.words",
    "NotTaken": "tables.tables",
    "Order": "words.dates",
    "PagePicture": "pages.pictures",
    "Place": "files.sheets",
    "Sheet": "files.sheets",
    "Stored": "draft",
    "Told": "already",
    "in_iso": "words.dates",
    "keep": "storing",
    "page_of_file": "pages.pictures",
    "page_picture": "pages.pictures",
    "places_of": "pages.words",
    "read": "lab_files",
    "read_pasted": "lab_files",
    "review": "reviewing",
    "sheets_of_kept": "lab_files",
    "store": "storing",
}


def __getattr__(name: str) -> object:
    """A name of this face, from the module that has it.

    Raises:
        AttributeError: There is no such name.
    """
    if name not in _ROOMS:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found: object = getattr(import_module(f"{__name__}.{_ROOMS[name]}"), name)
    globals()[name] = found
    return found
