"""The command `cases`: what bad results opened, what is next, and what closed them."""

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from wellbook.cli.common_options import FILE, JSON, ON, open_book, said_catalogue, show
from wellbook.support.translation import _

if TYPE_CHECKING:
    from wellbook.planning.cases import CaseFacts


@click.command()
@click.argument("book", type=FILE)
@ON
@JSON
def cases(book: Path, on: date, **how: Any) -> None:
    """List what bad results opened: why, what comes next, and what closes it."""
    from wellbook.planning.overview import cases as cases_of

    with open_book(book, readonly=True) as opened:
        found = cases_of(opened.record(), said_catalogue(), on)
    show(case_facts(on, found) if how["as_json"] else case_lines(on, found))


def case_facts(on: date, found: "Sequence[CaseFacts]") -> dict[str, Any]:
    """The cases as plain data."""
    return {
        "on": on.isoformat(),
        "cases": [
            {
                "key": one.key,
                "well": one.well,
                "point": one.point.name,
                "parameters": list(one.parameters),
                "opened": one.opened.isoformat(),
                "why": one.why,
                "preliminary": one.is_preliminary,
                "state": "closed" if one.closed else "open",
                "closed": one.closed.isoformat() if one.closed else None,
                "next": [{"what": what, "by": by.isoformat()} for what, by in one.next],
                "closes_when": one.closes_when,
            }
            for one in found
        ],
    }


def case_lines(on: date, found: "Sequence[CaseFacts]") -> Iterator[str]:
    """The same to read, open ones first."""
    if not any(one.closed is None for one in found):
        yield _("No case is open on {on}.").format(on=on.isoformat())
    for one in found:
        where = f"{one.well}, {one.point.name}"
        if one.closed:
            yield _("Closed at {where}: {why}").format(where=where, why=one.why)
            continue
        yield _("Open at {where}: {why}").format(where=where, why=one.why)
        for what, by in one.next:
            yield "  " + _("By {day}: {what}").format(day=by.isoformat(), what=what)
        yield f"  {one.closes_when}"
