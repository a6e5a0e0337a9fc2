"""Gather every sentence that can be said, and bring the languages of this folder up to date.

    python resources/languages/gather.py

A new sentence comes in without a translation, one that is no longer said goes; nothing is guessed.
Babel's extractor passes over calls inside of calls, so the source is read by `spoken` here; help
texts of commands are what stands in `help=`, and what people read of the reference data is taken
from its files. A parameter is called by the first name of its row in `lab_names.csv`, the one table
of names for window, packet and intake. Then the sentences are compiled, as the build does.
"""  # noqa: INP001  a script

import ast
import csv
import sys
import tomllib
from collections.abc import Iterator
from inspect import cleandoc
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
COLUMNS = {
    "parameters.csv": ("name", "why"),
    "limit_sets.csv": ("name", "note"),
    "limits.csv": ("condition", "note"),
    "panels.csv": ("name", "why"),
    "sale_rules.csv": ("name", "says", "source"),
    "unit_choices.csv": ("name",),
    "bottles.csv": ("name", "aerator", "before", "rinse", "fill"),
    "triggers.csv": ("name", "why"),
    "symptoms.csv": ("name", "why"),
    "exceedances.csv": ("name", "do"),
    "treatments.csv": ("note",),
    "places.csv": ("name", "ask", "labs"),
    "well_kinds.csv": ("name",),
    "upkeep.csv": ("part", "task", "use", "sign", "who", "caution"),
    "inspection.csv": ("name", "line", "do", "who", "caution"),
}
CAUTIONS = "cautions.toml"
NOT_SAID = frozenset({"source", "when", "boil", "also", "of", "who", "unit", "basis", "events"})
# Name of a call: which of its arguments are the context, the sentence and its plural.
CALLS = {
    "_": (None, 0, None),
    "N_": (None, 0, None),
    "pgettext": (0, 1, None),
    "ngettext": (None, 0, 1),
    "npgettext": (0, 1, 2),
}
COMMANDS = frozenset({"command", "group"})
# What click says to people of these commands, in its own words; it asks gettext, too.
OF_CLICK: tuple[str | tuple[str, str], ...] = (
    "Usage:",
    "Options",
    "Commands",
    "Aborted!",
    "Missing command.",
    "Missing argument",
    "Missing option",
    "Missing parameter",
    "Show the version and exit.",
    "Show this message and exit.",
    "%(prog)s, version %(version)s",
    "Error: {message}",
    "Invalid value for {param_hint}: {message}",
    "Invalid value: {message}",
    "No such command {name!r}.",
    "No such option {name!r}.",
    "Try '{command} {option}' for help.",
    "Option {name!r} does not take a value.",
    ("Option {name!r} requires an argument.", "Option {name!r} requires {nargs} arguments."),
    ("Got unexpected extra argument ({args})", "Got unexpected extra arguments ({args})"),
    ("Did you mean {possibility}?", "(Did you mean one of: {possibilities}?)"),
    ("{value!r} is not {choice}.", "{value!r} is not one of {choices}."),
    "Choose from:\n\t{choices}",
    "default: {default}",
    "env var: {var}",
    "required",
    "file",
    "directory",
    "path",
    "{name} {filename!r} does not exist.",
    "{name} {filename!r} is a directory.",
    "{name} {filename!r} is a file.",
    "{name} {filename!r} is not readable.",
    "{name} {filename!r} is not writable.",
    "{value!r} is not a valid {number_type}.",
    "{value} is not in the range {range}.",
)

Said = tuple[str | tuple[str, str], str | None]


def gathered() -> Catalog:
    """Every sentence, without a translation."""
    template = Catalog(charset="utf-8", fuzzy=False)
    for path in sorted((ROOT / "wellbook").rglob("*.py")):
        where = path.relative_to(ROOT).as_posix()
        for message, context in spoken(ast.parse(path.read_text(encoding="utf-8"))):
            if message:
                template.add(message, locations=[(where, 0)], context=context)
    for message in OF_CLICK:
        template.add(message, locations=[("click", 0)])
    for name, text in data():
        template.add(text, locations=[(f"resources/{name}", 0)])
    for path in sorted(ROOT.glob("sample_wells/*/household.toml")):
        about = tomllib.loads(path.read_text(encoding="utf-8"))["about"]
        template.add(about, locations=[(path.relative_to(ROOT).as_posix(), 0)])
    return template


def spoken(source: ast.Module) -> Iterator[Said]:
    """What each call says, or both its forms, and its context; the help of each command."""
    for node in ast.walk(source):
        if isinstance(node, ast.Call):
            yield from _of_call(node)
        elif isinstance(node, ast.FunctionDef) and any(map(_makes_command, node.decorator_list)):
            yield cleandoc(ast.get_docstring(node) or ""), None


def _makes_command(decorator: ast.expr) -> bool:
    called = decorator.func if isinstance(decorator, ast.Call) else decorator
    return getattr(called, "attr", "") in COMMANDS


def _of_call(call: ast.Call) -> Iterator[Said]:
    name = getattr(call.func, "attr", getattr(call.func, "id", ""))
    if name == "option":
        helps = [k.value for k in call.keywords if k.arg == "help"]
        yield from ((h.value, None) for h in helps if _is_text(h))  # type: ignore[attr-defined]
    if name not in CALLS or not isinstance(call.func, ast.Name):
        return
    places = [place for place in CALLS[name] if place is not None]
    if len(call.args) <= max(places) or not all(_is_text(call.args[n]) for n in places):
        return
    texts = [call.args[n].value for n in places]  # type: ignore[attr-defined]
    context = texts.pop(0) if CALLS[name][0] is not None else None
    if texts[0]:
        yield (texts[0] if len(texts) == 1 else (texts[0], texts[1])), context


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def data() -> Iterator[tuple[str, str]]:
    """What people read of the reference data, with its file."""
    for name, columns in COLUMNS.items():
        with (ROOT / "resources" / name).open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                yield from ((name, row[column]) for column in columns if row[column])
    tables = tomllib.loads((ROOT / "resources" / CAUTIONS).read_text(encoding="utf-8"))
    for table in tables.values():
        for one in table if isinstance(table, list) else [table]:
            yield from ((CAUTIONS, text) for text in _texts(one))


def names(language: str) -> dict[str, str]:
    """What a language calls the parameters, by their English names: the first that labs print."""
    with (ROOT / "resources" / "parameters.csv").open(encoding="utf-8", newline="") as file:
        english = {row["key"]: row["name"] for row in csv.DictReader(file)}
    with (ROOT / "resources" / "lab_names.csv").open(encoding="utf-8", newline="") as file:
        return {
            english[row["parameter"]]: row["names"].partition(";")[0].strip()
            for row in csv.DictReader(file)
            if row["language"] == language and not row["basis"]
        }


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
    template.creation_date = known.creation_date
    known.update(template, no_fuzzy_matching=True)
    known.obsolete.clear()
    for message, name in names(path.stem).items():
        known[message].string = name
    for message in known:
        if message.id and message.fuzzy:  # one form where two are needed, or the other way round
            message.flags.discard("fuzzy")
            message.string = ("",) * known.num_plurals if message.pluralizable else ""
    return known


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
