"""What bad results ask: the commands `cases`, `treatment` and `sources`.

What they opened and what closes it, what usually takes it out, and where it may come from.
"""

from collections.abc import Iterator, Sequence
from datetime import date
from math import inf
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from wellbook.cli.common_options import FILE, JSON, ON, open_book, said_catalogue, show
from wellbook.support.translation import _

if TYPE_CHECKING:
    from wellbook.planning.cases import CaseFacts
    from wellbook.planning.consulting import Consulted


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


Place = tuple[str, "Consulted"]  # well and point by name


@click.command()
@click.argument("book", type=FILE)
@ON
@JSON
def treatment(book: Path, on: date, **how: Any) -> None:
    """Say which methods of treatment usually serve for the raw water, and what comes first."""
    found = _consulted(book, on)
    show(treatment_facts(on, found) if how["as_json"] else treatment_lines(found))


@click.command()
@click.argument("book", type=FILE)
@ON
@JSON
def sources(book: Path, on: date, **how: Any) -> None:
    """Say where salt and nitrate in the raw water may come from."""
    found = _consulted(book, on)
    show(source_facts(on, found) if how["as_json"] else source_lines(found))


def _consulted(book: Path, on: date) -> "Sequence[Place]":
    """What each point of raw water that was tested tells."""
    from wellbook.planning.consulting import consulted
    from wellbook.planning.overview import overview, point_record

    catalogue = said_catalogue()
    with open_book(book, readonly=True) as opened:
        record = opened.record()
        return [
            (
                f"{well.well.name}, {one.point.name}",
                consulted(one, point_record(record, one.point.id, on), catalogue),
            )
            for well in overview(record, catalogue, on, with_due=False)
            for one in well.points
            if one.standings and not one.point.treated
        ]


def treatment_facts(on: date, found: "Sequence[Place]") -> dict[str, Any]:
    """What serves, as plain data; methods by their keys."""
    return {
        "on": on.isoformat(),
        "points": [
            {
                "point": where,
                "fits": [
                    {
                        "parameters": [one.key for one in fit.found],
                        "works": list(fit.treatment.works),
                        "partly": list(fit.treatment.partly),
                        "fails": list(fit.treatment.fails),
                        "standards": fit.treatment.standards,
                        "source": fit.treatment.source,
                        "first": {
                            option.method: [need.bound.first for need in option.needs]
                            for option in fit.options
                        },
                        "unknown": {
                            option.method: [one.key for one in option.unknown]
                            for option in fit.options
                        },
                    }
                    for fit in consulted.fits
                ],
                "missing": [one.key for one in consulted.missing],
            }
            for where, consulted in found
        ],
    }


def treatment_lines(found: "Sequence[Place]") -> Iterator[str]:
    """The same to read."""
    from wellbook.wording.consulting import treatment_fit

    if not found:
        yield _("No untreated water was tested yet, so nothing can be said of treatment.")
        return
    for where, consulted in found:
        yield where
        for fit in consulted.fits:
            yield "  " + treatment_fit.paragraph(fit)
            yield "      " + _("Source: {source}.").format(source=treatment_fit.sources(fit))
        if not consulted.fits:
            yield "  " + _("Nothing that was tested asks for a treatment by the chosen limits.")
        if consulted.missing:
            yield "  " + treatment_fit.missing([one.name for one in consulted.missing])
    yield treatment_fit.caution()


def source_facts(on: date, found: "Sequence[Place]") -> dict[str, Any]:
    """The hints, as plain data; an end of a figure that is open is null."""
    return {
        "on": on.isoformat(),
        "points": [
            {
                "point": where,
                "hints": [
                    {
                        "says": str(hint.kind),
                        "collected": day.isoformat(),
                        "about": sorted(hint.about),
                        "figures": {
                            name: [figure.low, None if figure.high == inf else figure.high]
                            for name, figure in hint.figures.items()
                        },
                    }
                    for day, hint in consulted.hints
                ],
            }
            for where, consulted in found
        ],
    }


def source_lines(found: "Sequence[Place]") -> Iterator[str]:
    """The same to read."""
    from wellbook.wording.consulting import salt_sources

    if not any(consulted.hints for _unused, consulted in found):
        yield _(
            "Nothing hints at a source of salt or nitrate: that takes chloride with bromide or "
            "sodium, or nitrate above 3 mg/L as N, in untreated water."
        )
        return
    for where, consulted in found:
        for day, hint in consulted.hints:
            yield f"{where}, {day.isoformat()}: {salt_sources.sentence(hint)}"
            yield "      " + _("Source: {source}.").format(source=salt_sources.source(hint))
    yield salt_sources.caution()
