"""A lab's price list from a CSV file, or as it is typed in.

The columns are ours: `name`, `price`, `tests` (names with `;` between; empty for a single test that
is named as its parameter), and where wanted `currency`, `kind` (`tests` or `shipping`) and `day`
(of the list); the first three are known by some other words, too. Names of tests are recognised as
those of a lab's report are; one that is only nearly known is asked about and never taken. Without
`tests` the name itself may tell them: `Basics: nitrate, lead and arsenic`, where each is known.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from wellbook.book.rows import SHIPPING, TESTS, Price
from wellbook.intake.files import text_tables
from wellbook.intake.files.sheets import Cells
from wellbook.intake.words.doubts import near_name
from wellbook.intake.words.names import read_name
from wellbook.support.errors import Fault
from wellbook.support.money import read_cost
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.partial_date import read_partial_date

COLUMNS = ("name", "price", "tests", "currency", "kind", "day")
_NEEDED = ("name", "price")
_SAME = {
    "package": "name",
    "panel": "name",
    "test": "name",
    "analysis": "name",
    "cost": "price",
    "fee": "price",
    "parameters": "tests",
    "analytes": "tests",
    "includes": "tests",
}
_OF_RESULTS = {"result", "results", "value", "sample", "sample id", "collected"}
_ENDINGS = {".csv", ".tsv", ".txt"}
_KINDS = {"": TESTS, "tests": TESTS, "package": TESTS, "single": TESTS, "shipping": SHIPPING}
_PARCEL = {
    "shipping", "shipping and handling", "shipping & handling", "postage", "courier", "delivery",
    "envío", "gastos de envío", "versand", "porto", "frais de port",
}  # fmt: skip
_TOLD = re.compile(r"[^:]*:(?P<after>[^:]+)|.*\((?P<within>[^()]+)\)")
_PARTED = re.compile(r"[,;&+]|\b(?:and|y|und|et)\b")
_LARGEST, _MOST_ROWS, _LONGEST = 2_000_000, 2_000, 200  # bytes, rows, letters; our own bounds
NO_MEANINGS: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Unsure:
    """A name of a test that was not recognised.

    Attributes:
        price: Name of the package or test it belongs to.
        printed: The name as the list prints it.
        near: Key of the parameter that it nearly names; empty if there is none.
    """

    price: str
    printed: str
    near: str = ""


@dataclass(frozen=True, slots=True)
class PriceList:
    """What was read of a list.

    Attributes:
        prices: In the order of the list.
        unsure: Names that were not taken; the prices are kept without them.
    """

    prices: tuple[Price, ...]
    unsure: tuple[Unsure, ...] = ()


@dataclass(frozen=True, slots=True)
class Typed:
    """A price as it is typed in; what is empty was not said."""

    name: str
    price: str = ""
    tests: str = ""
    currency: str = ""
    kind: str = ""
    day: str = ""


def read_prices(
    path: Path,
    catalogue: Catalogue,
    *,
    currency: str = "",
    day: str = "",
    means: Mapping[str, str] = NO_MEANINGS,
) -> PriceList:
    """Read a price list.

    Args:
        path: A CSV file with a first row of column names.
        catalogue: The reference data.
        currency: ISO 4217 code where the file has no column of it.
        day: Day, month or year of the list, likewise.
        means: Key of the parameter that a printed name means; empty to leave it out.

    Raises:
        Fault: The file or a row can't be read; the sentence names the row.
    """
    rows = _rows(path)
    found: list[Price] = []
    unsure: list[Unsure] = []
    for number, typed in _typed(rows, path.name):
        given = Typed(**{**typed, "currency": typed["currency"] or currency,
                         "day": typed["day"] or day})  # fmt: skip
        try:
            price, doubts = read_price(given, catalogue, means)
        except Fault as why:
            raise Fault(
                _("{file}, row {row}: {why}").format(file=path.name, row=number, why=why)
            ) from why
        found.append(price)
        unsure += doubts
    _require_sense(found, path.name)
    return PriceList(tuple(found), tuple(unsure))


def is_price_list(path: Path) -> bool:
    """Whether a file's first row is that of a price list, and not of results."""
    if path.suffix.casefold() not in _ENDINGS or not path.is_file():
        return False
    try:
        rows = _rows(path)
    except (OSError, Fault):
        return False
    head = _head(rows)
    return {*_NEEDED} <= {*head} and not {*head} & _OF_RESULTS


def read_price(
    typed: Typed, catalogue: Catalogue, means: Mapping[str, str] = NO_MEANINGS
) -> tuple[Price, tuple[Unsure, ...]]:
    """One price, and the names of tests in it that were not recognised.

    Raises:
        Fault: Its name, price, kind or day can't be read.
    """
    name = " ".join(typed.name.split())
    if not name or len(name) > _LONGEST:
        raise Fault(_("A price needs a name of up to {n} letters.").format(n=_LONGEST))
    kind = _KINDS.get(typed.kind.strip().casefold())
    if not (typed.kind or typed.tests) and name.casefold() in _PARCEL:
        kind = SHIPPING
    if kind is None:
        raise Fault(_("{kind!r} is no kind of price: write tests or shipping.").format(
            kind=typed.kind))  # fmt: skip
    day = typed.day.strip()
    if day and read_partial_date(day) is None:
        raise Fault(_("{value} is no day; write it like 2026-04-03, 2026-04 or 2026").format(
            value=day))  # fmt: skip
    amount, currency = read_cost(typed.price, typed.currency)
    if kind == SHIPPING:
        return Price(0, 0, kind, name, amount, currency, day=day), ()
    words = _words(typed.tests, catalogue) or _told_by(name, catalogue, means)
    keys: list[str] = []
    unsure: list[Unsure] = []
    for word in words:
        key = means[word] if word in means else _key(word, catalogue)
        if key:
            keys.append(key)
        elif word not in means:
            near = near_name(word, catalogue)
            unsure.append(Unsure(name, word, near.parameter.key if near else ""))
    parameters = " ".join(dict.fromkeys(keys))
    price = Price(0, 0, kind, name, amount, currency, parameters, "; ".join(words), day)
    return price, tuple(unsure)


def _key(word: str, catalogue: Catalogue) -> str:
    if word in catalogue.parameters:
        return word
    found = read_name(word, catalogue).parameter
    return found.key if found else ""


def _told_by(name: str, catalogue: Catalogue, means: Mapping[str, str]) -> list[str]:
    """The tests that a name tells, where every one of them is known; else the name itself."""
    if name in means or _key(name, catalogue):
        return [name]
    told = _TOLD.fullmatch(name)
    inner = (told["after"] or told["within"]) if told else name
    words = [word.strip() for word in _PARTED.split(inner) if word.strip()]
    return words if words and all(_key(word, catalogue) for word in words) else [name]


def _words(text: str, catalogue: Catalogue) -> list[str]:
    """The names in a cell; a comma parts them only where it belongs to no name."""
    parts = [" ".join(part.split()) for part in text.replace("\n", ";").split(";")]
    words: list[str] = []
    for part in filter(None, parts):
        inner = [word.strip() for word in part.split(",") if word.strip()]
        words += [part] if len(inner) < 2 or _key(part, catalogue) else inner  # noqa: PLR2004
    return words


def _rows(path: Path) -> list[Cells]:
    if path.stat().st_size > _LARGEST:
        raise Fault(_("{file} is too large for a price list.").format(file=path.name))
    content = path.read_bytes()
    return text_tables.split(text_tables.decode(content, path.name), path.name, _likeness)


def _likeness(rows: Sequence[Cells]) -> int:
    return len({*_head(rows)} & {*COLUMNS})


def _head(rows: Sequence[Cells]) -> list[str]:
    """The first row by the names of our columns; what is none of them as it stands."""
    words = [cell.strip().casefold() for cell in rows[0]] if rows else []
    return [_SAME[word] if word in _SAME and _SAME[word] not in words else word for word in words]


def _typed(rows: Sequence[Cells], file: str) -> Iterator[tuple[int, dict[str, str]]]:
    """Number and cells of each row by the names of our columns; empty rows are left out."""
    head = _head(rows)
    missing = [name for name in _NEEDED if name not in head]
    if missing:
        raise Fault(
            _(
                "{file} has no column {missing}. The first row of a price list names its columns: "
                "{columns}."
            ).format(file=file, missing=", ".join(missing), columns=", ".join(COLUMNS))
        )
    if len(rows) > _MOST_ROWS:
        raise Fault(_("{file} is too large for a price list.").format(file=file))
    for number, row in enumerate(rows[1:], start=2):
        cells = dict(zip(head, (cell.strip() for cell in row), strict=False))
        if any(cells.values()):
            yield number, {name: cells.get(name, "") for name in COLUMNS}


def _require_sense(prices: Sequence[Price], file: str) -> None:
    names = [price.name for price in prices]
    twice = next((name for name in names if names.count(name) > 1), "")
    codes = sorted({price.currency for price in prices if price.currency})
    if not prices:
        raise Fault(_("{file} holds no price.").format(file=file))
    if twice:
        raise Fault(_("{file} names {name} twice.").format(file=file, name=twice))
    if len(codes) > 1:
        raise Fault(_("{file} has prices in several currencies: {codes}.").format(
            file=file, codes=", ".join(codes)))  # fmt: skip
