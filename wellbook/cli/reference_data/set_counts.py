"""How many limits of which set were read, and where."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from wellbook.support.csv_rows import read_rows
from wellbook.water.values.limits import Limit, LimitSet


@dataclass(frozen=True, slots=True)
class SetCount:
    """How well the limits of a set are known.

    Attributes:
        key: The set.
        rows: How many limits it has.
        stored: How many of these were read in a text.
        issued: How many of those in the authority's own text; the others were read in a copy.
        copies: How many of those name no address of the authority.
        issuer: The hosts of the authority.
        whole: Whether it is the whole published list.
    """

    key: str
    rows: int
    stored: int
    issued: int
    copies: int
    issuer: tuple[str, ...]
    whole: bool

    @property
    def memory(self) -> int:
        """How many limits nobody has read again."""
        return self.rows - self.stored


def counts(folder: Path) -> tuple[SetCount, ...]:
    """The limit sets in the order of their file, with how many rows each has of which kind."""
    rows = list(read_rows(folder / "limits.csv", Limit))
    return tuple(
        SetCount(
            known.key,
            rows=len(of := [row for row in rows if row.set == known.key]),
            stored=len(read := [row for row in of if row.checked]),
            issued=sum(any(map(known.issues, row.text.split())) for row in read),
            copies=sum(not row.where for row in read),
            issuer=known.issuer,
            whole=known.whole,
        )
        for known in read_rows(folder / "limit_sets.csv", LimitSet)
    )


def table(rows: Iterable[SetCount]) -> str:
    """The counts as text, with a line of totals."""
    counted = list(rows)
    head = ("set", "rows", "stored", "at the issuer", "copies only", "memory", "list")
    total = Counter[int]()
    lines: list[tuple[str, ...]] = [head]
    for row in counted:
        figures = (row.rows, row.stored, row.issued, row.copies, row.memory)
        total.update(dict(enumerate(figures)))
        lines.append((row.key, *map(str, figures), "whole" if row.whole else "partial"))
    lines.append(
        (f"{len(counted)} sets", *(str(total[place]) for place in range(len(head) - 2)), "")
    )
    wide = [max(len(line[place]) for line in lines) for place in range(len(head))]
    return "\n".join(
        f"{line[0]:<{wide[0]}}  "
        + "  ".join(f"{cell:>{width}}" for cell, width in zip(line[1:], wide[1:], strict=True))
        for line in lines
    )


def warnings(rows: Iterable[SetCount]) -> list[str]:
    """What is no fault, but could be better: limits that were read and name copies only."""
    return [
        f"warning: limits.csv: {row.copies} of {row.stored} limits of {row.key} that were read name"
        f" copies only; put the authority's own address first ({' '.join(row.issuer)})"
        for row in rows
        if row.copies
    ]
