"""What whole histories told, kept from one look at a book to the next; never in the book itself.

It lies in the cache folder of the person, under the digest of the journal's last entry, and counts
only as long as nothing was written to the book, the reference data and the program are the same, no
test lies ahead, and the limits that a step is held against are those in force. What is damaged, or
can't be read, is worked out anew.
"""

import hashlib
import json
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, fields, is_dataclass
from datetime import date
from enum import StrEnum
from functools import lru_cache
from pathlib import Path
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

from wellbook import __version__
from wellbook.book.record import Newest
from wellbook.support import paths
from wellbook.water.statistics import outcomes
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.limits import Limit
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.judge import limits_adopted, limits_in_force
from wellbook.water.verdicts.status import HistoryFacts

_KEPT = 12  # states of books


@dataclass(frozen=True, slots=True)
class Histories:
    """What is kept of a state of a book.

    Attributes:
        newest: By point, where its newest results lie.
        facts: By point and key of a parameter, what the whole history tells.
    """

    newest: Mapping[int, Newest] = field(default_factory=dict)
    facts: Mapping[tuple[int, str], HistoryFacts] = field(default_factory=dict)


def read(digest: str, catalogue: Catalogue, sets: Sequence[str], today: date) -> Histories:
    """What is kept of a state of a book, as far as it holds on a day; empty if nothing is.

    Args:
        digest: Digest of the last entry of its journal.
        catalogue: The reference data as the household measures by it.
        sets: Keys of the household's limit sets.
        today: The day.
    """
    try:
        sealed, _newline, text = _place(digest).read_text(encoding="utf-8").partition("\n")
        if sealed != _seal(text):
            return Histories()
        told = json.loads(text)
        worked_out = date.fromisoformat(told["day"])
        values = _Values(None, ())
        newest = {int(point): values.value(Newest, one) for point, one in told["newest"].items()}
        if any(one.last and one.last > today for one in newest.values()):
            return Histories()
        facts = {
            (point, key): _Values(catalogue.parameters[key], catalogue.limits_of(key)).value(
                HistoryFacts, one
            )
            for point, key, one in told["facts"]
            if _limits(key, catalogue, sets, worked_out) == _limits(key, catalogue, sets, today)
        }
    except (OSError, ValueError, KeyError, TypeError, IndexError, AttributeError):
        return Histories()
    return Histories(newest, facts)


def keep(digest: str, catalogue: Catalogue, today: date, found: Histories) -> None:
    """Keep what was told of a state of a book on a day, if nothing in it lies ahead."""
    if any(one.has_later for one in found.newest.values()):
        return
    text = json.dumps(
        {
            "day": today.isoformat(),
            "newest": {point: _plain(one, catalogue) for point, one in found.newest.items()},
            "facts": [(*of, _plain(one, catalogue)) for of, one in found.facts.items()],
        }
    )
    with suppress(OSError):  # it is worked out anew the next time
        place = _place(digest)
        place.parent.mkdir(exist_ok=True)
        partial = place.with_suffix(".partial")
        partial.write_text(f"{_seal(text)}\n{text}", encoding="utf-8")
        partial.replace(place)
        for old in sorted(place.parent.iterdir(), key=lambda one: -one.stat().st_mtime)[_KEPT:]:
            old.unlink()


def _place(digest: str) -> Path:
    name = hashlib.sha256(f"{digest} {_made_by()}".encode()).hexdigest()[:32]
    return paths.cache() / "histories" / f"{name}.json"


def _seal(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


@lru_cache(maxsize=1)
def _made_by() -> str:
    """Names the program and its reference data: another one may tell something else."""
    folders = (paths.resources(), Path(outcomes.__file__).parent)
    files = (path for folder in folders if folder.is_dir() for path in sorted(folder.iterdir()))
    stats = [(path.name, path.stat()) for path in files if path.is_file()]
    return f"{__version__} {[(name, stat.st_size, stat.st_mtime_ns) for name, stat in stats]}"


def _limits(
    parameter: str, catalogue: Catalogue, sets: Sequence[str], day: date
) -> tuple[tuple[Limit, ...], tuple[Limit, ...]]:
    return (
        limits_in_force(parameter, catalogue, sets, day),
        limits_adopted(parameter, catalogue, sets, day),
    )


def _plain(value: Any, catalogue: Catalogue) -> Any:
    """A value as JSON has it: fields in their order, a limit by its place among the parameter's."""
    if isinstance(value, Parameter):
        return value.key
    if isinstance(value, Limit):
        return catalogue.limits_of(value.parameter).index(value)
    if is_dataclass(value):
        return [_plain(getattr(value, one.name), catalogue) for one in fields(value)]
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple | frozenset):
        return [_plain(one, catalogue) for one in value]
    return value


class _Values:
    """Makes values from what `_plain` made of them, by the types that they are to have."""

    def __init__(self, parameter: Parameter | None, limits: Sequence[Limit]) -> None:
        self._parameter, self._limits = parameter, limits

    def value(self, hint: Any, plain: Any) -> Any:
        """One value.

        Raises:
            ValueError, KeyError, TypeError, IndexError: It is no such value.
        """
        arguments = get_args(hint)
        if plain is None:
            return None
        if isinstance(hint, UnionType):
            return self.value(next(one for one in arguments if one is not NoneType), plain)
        if get_origin(hint) is tuple and arguments[-1] is not Ellipsis:
            return tuple(map(self.value, arguments, plain))
        if get_origin(hint) in {tuple, frozenset}:
            return get_origin(hint)(self.value(arguments[0], one) for one in plain)
        return self._single(hint, plain)

    def _single(self, hint: Any, plain: Any) -> Any:
        if hint is Parameter:
            return self._parameter
        if hint is Limit:
            return self._limits[plain]
        if hint is date:
            return date.fromisoformat(plain)
        if isinstance(hint, type) and is_dataclass(hint):
            return hint(*map(self.value, _hints(hint), plain))
        return hint(plain) if isinstance(hint, type) and issubclass(hint, StrEnum) else plain


@lru_cache(maxsize=16)
def _hints(kind: Any) -> tuple[Any, ...]:
    return tuple(get_type_hints(kind).values())
