"""Odd things, each said once with all the rows in which it was seen."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from wellbook.support.translation import _
from wellbook.water.values.findings import Finding, Severity

_NAMED = 3  # rows named one by one; the others are counted
Where = tuple[str | int, int]  # name of a sheet or number of a page, and the row or line there
_ORDER = tuple(Severity)


@dataclass(frozen=True, slots=True)
class Trouble:
    """One odd thing, wherever it is seen."""

    key: str
    text: str
    severity: Severity = Severity.ASK


@dataclass(slots=True)
class Log:
    """Collects what is odd in a file."""

    _rows: dict[Trouble, list[Where]] = field(default_factory=dict)

    def add(self, trouble: Trouble, sheet: str | int = "", number: int = 0) -> None:
        """Note that something was seen in a row of a sheet or page; 0 for the file as a whole."""
        self._rows.setdefault(trouble, []).append((sheet, number))

    def findings(self) -> tuple[Finding, ...]:
        """Everything that was noted, what stops first."""
        found = sorted(self._rows.items(), key=lambda item: _ORDER.index(item[0].severity))
        return tuple(
            Finding(trouble.key, _(trouble.text), _where(rows), trouble.severity)
            for trouble, rows in found
        )


def _where(rows: Sequence[Where]) -> str:
    if isinstance(rows[0][0], int):
        return _("page {page}, line {line}").format(page=rows[0][0], line=rows[0][1])
    sheet = rows[0][0]
    numbers = [str(number) for _unused, number in rows if number]
    if not numbers:
        return _("sheet {sheet}").format(sheet=sheet) if sheet else ""
    start = _("sheet {sheet}, ").format(sheet=sheet) if sheet else ""
    if len(numbers) == 1:
        return _("{start}row {numbers}").format(start=start, numbers=numbers[0])
    more = (
        (" " + _("and {n} more").format(n=len(numbers) - _NAMED)) if len(numbers) > _NAMED else ""
    )
    return _("{start}rows {numbers}{more}").format(
        start=start, numbers=", ".join(numbers[:_NAMED]), more=more
    )
