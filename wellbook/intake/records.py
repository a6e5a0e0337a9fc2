"""JSON and XML: lists of records become tables, single values the lines above them."""

import json
import re
from collections import Counter
from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree as ET

from wellbook.intake.files import flat_workbooks
from wellbook.intake.files.sheets import Cells, Line, Sheet
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.signs import folded

_DEEPEST = 30  # levels; our own bound
_MOST_KEYS = 500
_BARE = frozenset({"date", "time", "day"})  # keys that tell nothing without the one around them
_INNER = "\x1f"  # between a key and one inside of it
_DAY = re.compile(r"\d{4}(?:-\d\d){0,2}$|\d{1,2}[/.]\d{1,2}[/.]\d{2,4}$")  # a key that is a day
_NAME = "Parameter"  # over the keys of a record of records
_FIGURES = "<>0123456789"
_RESULTS = "Sample results"  # a title over those that follow checks of the lab
_HUMPS = re.compile(r"(?<=[a-z0-9])(?=[A-Z])|[_.\s-]+")
# Keys around checks of the lab's own. Common practice, no source.
_CHECKS = re.compile(
    r"\b(blanks?|q[ac]|qa ?qc|quality (control|assurance)|spike[ds]?|duplicates?|dups?|controls?"
    r"|replicat\w+|replicas?|parallelproben?|parallelmessungen|splits?|split samples?|rpd"
    r"|surrogates?|lcsd?|msd?|mb|calibrations?|recover(y|ies)|blancos?|blancs?|blind(wert|probe)[en]?"
    r"|duplicad[oa]s?|doublons?|duplicatas?|doppelproben?|control(es)? de calidad|temoins?"
    r"|controles? qualite|kontrollen?|kontrollproben?|qualitatskontrollen?)\b"
)
_TITLE = re.compile(r"(?:(?!batch)\w+ )?(?:blanks?|spikes?|surrogates?|qc)")
_VALUE = re.compile(
    r"\b(results?|values?|concentration|conc|resultado|resultat|ergebnis|messwert|wert|valor|valeur)$"
)
_NAMING = re.compile(
    r"\b(name|analyte|parameter|parametro|parametre|test|compound|ensayo|analyse|samples?|water|data"
    r"|measurements?|muestra|echantillon|probe)\b"
)
_NUMBER = re.compile(r"[0-9.,]+")
_KINDS = frozenset({"type", "kind", "sample type", "category", "tipo", "art"})
_NUMBERS = frozenset({"number", "nummer", "nr", "no", "num", "numero", "code", "codigo", "id"})
Value = Any


def from_json(text: str, name: str) -> tuple[Sheet, ...]:
    """The tables of a JSON text.

    Raises:
        Fault: It is damaged, or nested too deep.
    """
    try:
        value = json.loads(text, parse_float=str, parse_int=str)
    except (ValueError, RecursionError) as error:
        line = getattr(error, "lineno", 0)
        raise Fault(
            _("{name} is damaged: its JSON can’t be read at line {line}. Ask for it again.").format(
                name=name, line=line
            )
        ) from None
    return _sheets(value, name)


def from_xml(content: bytes, name: str) -> tuple[Sheet, ...]:
    """The tables of an XML text.

    Raises:
        Fault: It is damaged, nested too deep, or declares entities.
    """
    if b"<!ENTITY" in content:
        raise Fault(
            _(
                "{name} declares entities of its own, which a lab’s file needs not. Ask for CSV."
            ).format(name=name)
        )
    try:
        root = ET.fromstring(content)  # noqa: S314  without entities nothing can swell
    except (ET.ParseError, ValueError, LookupError) as error:
        line = getattr(error, "position", (0, 0))[0]
        raise Fault(
            _("{name} is damaged: its XML can’t be read at line {line}. Ask for it again.").format(
                name=name, line=line
            )
        ) from None
    if book := flat_workbooks.sheets_of(root):
        return book
    several = {
        _local(tag)
        for element in root.iter()
        for tag, n in Counter(child.tag for child in element).items()
        if n > 1
    }
    return _sheets(_plain(root, 0, name, several), name)


def _plain(element: ET.Element, depth: int, name: str, several: set[str]) -> Value:
    """An element as text or as a record; what stands several times anywhere is always a list."""
    if depth > _DEEPEST:
        raise _too_deep(name)
    own = {_local(key): value for key, value in element.attrib.items()}
    children = list(element)
    if not children:
        text = (element.text or "").strip()
        return {**own, "value": text} if own and text else own or text
    found: dict[str, list[Value]] = {}
    for child in children:
        found.setdefault(_local(child.tag), []).append(_plain(child, depth + 1, name, several))
    shared = {key: values if key in several else values[0] for key, values in found.items()}
    return {**own, **shared}


def _local(tag: str) -> str:
    return tag.rpartition("}")[2]


def _sheets(value: Value, name: str) -> tuple[Sheet, ...]:
    rows = list(_rows(value, "", 0, name))
    return (Sheet("", rows, lines=tuple(Line(number) for number in range(1, len(rows) + 1))),)


def _rows(value: Value, key: str, depth: int, name: str) -> Iterator[Cells]:
    """Lines for single values first, then a table for every list of records."""
    if depth > _DEEPEST:
        raise _too_deep(name)
    if checks := _checks(value, key):
        yield [checks]
        yield from _of_any(value, checks, depth, name)
        yield [_RESULTS]
    else:
        yield from _of_any(value, key, depth, name)


def _of_any(value: Value, key: str, depth: int, name: str) -> Iterator[Cells]:
    """The same for what is known to be of the household's water, or of a check."""
    if isinstance(value, dict):
        if value and len(value) > 2 and all(_is_figure(one) for one in value.values()):  # noqa: PLR2004
            yield from ([str(k), _said(v)] for k, v in value.items())
            return
        records = [one for one in value.values() if isinstance(one, dict)]
        if len(records) == len(value) and not any(map(_is_deep, records)) and _are_named(value):
            over = "Date" if all(map(_DAY.match, value)) else _NAME
            named = [{over: inner, **one} for inner, one in value.items()]
            yield from _of_list(named, key, depth, name)
            return
        table = _in_columns(value)
        if table:
            keys, rows = table
            yield from _rows(
                {k: v for k, v in value.items() if k not in keys}, key, depth + 1, name
            )
            yield from rows
            yield []
            return
        later = [(k, v) for k, v in value.items() if isinstance(v, dict | list)]
        for inner, one in value.items():
            if not isinstance(one, dict | list):
                yield _single(str(inner), _said(one), key, is_of_sample=bool(later))
        for inner, one in later:
            around = f"{key} " if _CHECKS.search(_words(key)) else ""
            yield from _rows(one, f"{around}{inner}", depth + 1, name)
        yield []
    elif isinstance(value, list):
        yield from _of_list(value, key, depth, name)


def _single(inner: str, text: str, key: str, *, is_of_sample: bool) -> Cells:
    """The line of a single value; a number that numbers the sample is none of its results."""
    is_number = _words(inner) in _NUMBERS and text[:1].isdigit()
    if is_number and is_of_sample:
        return ["Sample number:", text]
    if is_number or (is_of_sample and _NUMBER.fullmatch(text)):
        return [f"{inner}: {text}"]
    return [f"{key} {inner}:" if inner.casefold() in _BARE and key else f"{inner}:", text]


def _words(key: str) -> str:
    return folded(_HUMPS.sub(" ", key)).strip()


def _checks(value: Value, key: str) -> str:
    """The title of checks of the lab's own, by the key around them or by their kind."""
    if not isinstance(value, dict | list):
        return ""
    of_dict = value.items() if isinstance(value, dict) and _has_list(value) else ()
    kinds = (_words(str(one)) for k, one in of_dict if _words(str(k)) in _KINDS)
    words = next(filter(_CHECKS.search, (_words(key), *kinds)), "")
    return words if not words or _TITLE.fullmatch(words) else "Quality control"


def _are_named(value: dict[str, Value]) -> bool:
    """Whether records stand under the names of what was measured, or under their days."""
    if len(value) != 1:
        return len(value) > 1
    (inner, one), *_rest = value.items()
    told = [_words(str(k)) for k in one]
    is_result = any(map(_VALUE.search, told)) and not any(map(_NAMING.search, told))
    around = _words(str(inner))
    return is_result and not (_VALUE.search(around) or _NAMING.search(around))


def _in_columns(value: dict[str, Value]) -> tuple[set[str], list[Cells]] | None:
    """A table whose heading stands apart from its rows, or each column of which is a list."""
    lists = {k: v for k, v in value.items() if isinstance(v, list) and len(v) > 1}
    bare = {k: v for k, v in lists.items() if not any(isinstance(one, dict | list) for one in v)}
    for heads, cells in bare.items():
        for under, rows in lists.items():
            if all(isinstance(row, list) and len(row) == len(cells) for row in rows):
                said = [[_said(cell) for cell in row] for row in rows]
                return {heads, under}, [[_said(cell) for cell in cells], *said]
    if len(bare) > 1 and len({len(v) for v in bare.values()}) == 1:
        columns = [[_said(cell) for cell in v] for v in bare.values()]
        return set(bare), [list(bare), *(list(row) for row in zip(*columns, strict=True))]
    return None


def _of_list(value: list[Value], key: str, depth: int, name: str) -> Iterator[Cells]:
    records = [one for one in value if isinstance(one, dict)]
    if not records:
        if all(isinstance(one, list) for one in value):
            yield from ([_said(cell) for cell in one] for one in value)
        else:
            yield [f"{key}:", *(_said(one) for one in value if not isinstance(one, list))]
        return
    if any(_has_list(one) or _names_results(one) for one in records) or len(records) < len(value):
        for one in value:  # samples, each with its results inside, and what stands among them
            yield from _rows(one, key, depth + 1, name)
            if not isinstance(one, dict | list):
                yield [_said(one)]
        return
    flat = _shortened([_flat(record, "", depth, name) for record in records])
    heads = list(dict.fromkeys(head for record in flat for head in record))[:_MOST_KEYS]
    yield heads
    yield from ([record.get(head, "") for head in heads] for record in flat)
    yield []


def _shortened(flat: list[dict[str, str]]) -> list[dict[str, str]]:
    """Records with keys without those around them, where they can be told apart so, too."""
    heads = dict.fromkeys(head for record in flat for head in record)
    last = Counter(head.rpartition(_INNER)[2] for head in heads)
    short = {
        head: inner if last[inner := head.rpartition(_INNER)[2]] == 1 else head.replace(_INNER, " ")
        for head in heads
    }
    return [{short[head]: value for head, value in record.items()} for record in flat]


def _flat(record: dict[str, Value], before: str, depth: int, name: str) -> dict[str, str]:
    """A record with its inner records in one level."""
    if depth > _DEEPEST:
        raise _too_deep(name)
    flat: dict[str, str] = {}
    for key, value in record.items():
        if isinstance(value, dict):
            flat |= _flat(value, f"{before}{key}{_INNER}", depth + 1, name)
        elif not isinstance(value, list):
            flat[f"{before}{key}"] = _said(value)
    return flat


def _has_list(value: Value, depth: int = 0) -> bool:
    if depth > _DEEPEST or isinstance(value, list):
        return True
    inner = value.values() if isinstance(value, dict) else ()
    return any(_has_list(one, depth + 1) for one in inner)


def _names_results(record: dict[str, Value]) -> bool:
    """Whether a record holds one of records alike, as of what was measured, by their names."""
    inner = [one for one in record.values() if isinstance(one, dict)]
    return any(
        all(isinstance(one, dict) and not _is_deep(one) for one in each.values())
        and _are_named(each)
        and set.intersection(*map(set, each.values()))
        for each in inner
    )


def _is_deep(record: dict[str, Value]) -> bool:
    return any(isinstance(one, dict | list) for one in record.values())


def _is_figure(value: Value) -> bool:
    return isinstance(value, str | bool | None) and _said(value)[:1] in _FIGURES


def _said(value: Value) -> str:
    if value is None:
        return ""
    return str(value).strip() if not isinstance(value, dict | list) else ""


def _too_deep(name: str) -> Fault:
    return Fault(
        _("{name} is nested too deep for a lab’s results. Ask for the results as CSV.").format(
            name=name
        )
    )
