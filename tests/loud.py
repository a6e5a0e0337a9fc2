"""A made-up language in capitals, so that what nobody says is left in small letters.

What is put into a sentence is not made loud with it: a key of the store that is shown as it is
kept stands out, too.
"""

import csv
import re
import sqlite3
import string
from contextlib import closing
from gettext import NullTranslations

from wellbook.support import paths
from wellbook.support.translation import LANGUAGES, Language

PLACE = re.compile(r"\{[^{}]*\}")
WORD = re.compile(r"[^\W\d_]*[a-zµ][^\W\d_]*")
# What the household and its labs wrote; columns that hold keys of the store are left out.
WRITTEN = {
    "well": "name note address coordinates",
    "construction": "text",
    "point": "name note",
    "treatment_unit": "name target note",
    "service": "text",
    "lab": "name accreditation note",
    "sample": "lab_number sampler standing rain temperature note struck",
    "result": "name text unit basis qualifier method flags",
    "document": "name",
    "event": "text",
    "plan": "reason postponed_why",
    "journal": "reason",
}
# Columns of the reference data that stay as they are.
CITED = ("source", "where", "text")


class Loud(NullTranslations):
    """Says everything in capitals; what click fills in by `%(…)s` is left as it is."""

    def gettext(self, message):
        if "%(" in message:
            return message
        if not PLACE.search(message):
            return message.upper()
        return "".join(
            text.upper() + _place(name, how, turned)
            for text, name, how, turned in string.Formatter().parse(message)
        )

    def pgettext(self, _context, message):
        return self.gettext(message)

    def ngettext(self, one, many, n):
        return self.gettext(one if n == 1 else many)

    def npgettext(self, _context, one, many, n):
        return self.ngettext(one, many, n)


def _place(name, how, turned):
    if name is None:
        return ""
    return f"{{{name}{f'!{turned}' if turned else ''}{f':{how}' if how else ''}}}"


def loud(key="es"):
    """The loud language under the tag of another one."""
    return Language(key, Loud())


def texts_in(value):
    """Every text in what was read from JSON."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, (dict, list)):
        for part in value.values() if isinstance(value, dict) else value:
            yield from texts_in(part)


def written_in(book):
    """The words of the household, its labs and its rules, and the names of units."""
    found = [str(book), *LANGUAGES.values(), "min"]
    with closing(sqlite3.connect(f"file:{book}?mode=ro", uri=True)) as opened:
        for table, columns in WRITTEN.items():
            for row in opened.execute(f"SELECT {columns.replace(' ', ', ')} FROM {table}"):
                found += map(str, row)
    for data in paths.resources().glob("*.csv"):
        with data.open(encoding="utf-8", newline="") as file:
            found += [row.get(column) or "" for row in csv.DictReader(file) for column in CITED]
    return {word for text in found for word in WORD.findall(text)}


def unsaid_in(text, known):
    """Words of three letters or more that neither a sentence of ours nor the household said."""
    return sorted({word for word in WORD.findall(text) if len(word) > 2} - known)
