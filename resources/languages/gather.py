"""Gather every sentence that can be said, and bring the languages of this folder up to date.

    python resources/languages/gather.py

A new sentence comes in without a translation, one that is no longer said goes. Sentences stand in
the source in `say`, `say_as`, `count` and `mark`; what people read of the reference data is taken
from its files.
"""  # noqa: INP001  a script

import ast
import csv
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
PARTS = (
    "book",
    "charts",
    "export",
    "packet",
    "pdf",
    "planning",
    "sandbox",
    "sharing",
    "water",
    "wording",
)
COLUMNS = {
    "parameters.csv": ("name", "why"),
    "limit_sets.csv": ("name", "note"),
    "limits.csv": ("condition",),
    "panels.csv": ("name", "why"),
    "sale_rules.csv": ("name", "says", "source"),
    "unit_choices.csv": ("name",),
}
CAUTIONS = "cautions.toml"
NOT_SAID = frozenset({"source", "when", "boil", "also"})


def gathered() -> Catalog:
    """Every sentence, without a translation."""
    template = Catalog(charset="utf-8", fuzzy=False)
    for part in PARTS:
        for path in sorted((ROOT / "wellbook" / part).rglob("*.py")):
            for message, context in spoken(ast.parse(path.read_text(encoding="utf-8"))):
                where = path.relative_to(ROOT).as_posix()
                template.add(message, locations=[(where, 0)], context=context)
    for name, text in data():
        template.add(text, locations=[(f"resources/{name}", 0)])
    return template


def spoken(source: ast.Module) -> Iterator[tuple[str | tuple[str, ...], str | None]]:
    """What each call says, or both its forms, and its context.

    Calls inside of calls are among them; Babel's own extractor passes them over.
    """
    for call in ast.walk(source):
        if not isinstance(call, ast.Call):
            continue
        name = getattr(call.func, "attr", getattr(call.func, "id", ""))
        texts = [one.value for one in call.args if isinstance(one, ast.Constant)]
        if name in {"say", "mark"} and len(texts) == 1 and texts[0]:
            yield texts[0], None
        elif name == "say_as" and len(texts) == 2:  # noqa: PLR2004  context and text
            yield texts[1], texts[0]
        elif name == "count" and [*map(type, call.args[:2])] == [ast.Constant] * 2:
            yield tuple(texts[:2]), None


def data() -> Iterator[tuple[str, str]]:
    """What people read of the reference data, with its file."""
    for name, columns in COLUMNS.items():
        with (ROOT / "resources" / name).open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                yield from ((name, row[column]) for column in columns if row[column])
    tables = tomllib.loads((ROOT / "resources" / CAUTIONS).read_text(encoding="utf-8"))
    for table in tables.values():
        yield from ((CAUTIONS, text) for text in _texts(table))


def _texts(table: dict[str, object]) -> Iterator[str]:
    for key, value in table.items():
        if key in NOT_SAID:
            continue
        if isinstance(value, dict):
            yield from _texts(value)
        elif isinstance(value, str):
            yield value
        elif isinstance(value, list):
            yield from value


def updated(path: Path, template: Catalog) -> Catalog:
    """A language with the sentences of now; translations of those that are left are kept."""
    with path.open("rb") as file:
        known = read_po(file, locale=path.stem)
    made = Catalog(
        locale=path.stem,
        charset="utf-8",
        fuzzy=False,
        header_comment=known.header_comment,
        project="Wellbook",
        version="of the same folder",
        msgid_bugs_address="the developers of Wellbook",
        last_translator="the developers of Wellbook",
        language_team="the developers of Wellbook",
        creation_date=known.creation_date,
        revision_date=known.revision_date,
    )
    # As the file has it: releases of Babel differ in how many forms of a plural a language has.
    made.mime_headers = [("Plural-Forms", known.plural_forms)]
    for message in template:
        if not message.id:
            continue
        before = known.get(message.id, message.context)
        made.add(
            message.id,
            before.string if before else None,
            locations=message.locations,
            context=message.context,
        )
    return made


def main() -> None:
    """Bring every language up to date and say what it lacks."""
    template = gathered()
    for path in sorted(HERE.glob("*.po")):
        made = updated(path, template)
        lacks = sum(not _said(message.string) for message in made if message.id)
        with path.open("wb") as file:
            write_po(file, made, width=100, include_lineno=False, sort_output=True)
        sys.stdout.write(f"{path.name}: {len(made)} sentences, {lacks} without a translation\n")


def _said(string: str | tuple[str, ...] | list[str] | None) -> bool:
    return all(string) if isinstance(string, (tuple, list)) else bool(string)


if __name__ == "__main__":
    main()
