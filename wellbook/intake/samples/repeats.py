"""Readings of one sample that say different things of one parameter."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from wellbook.book.rows import NewResult
from wellbook.intake.words.log import Trouble
from wellbook.support.translation import _
from wellbook.water.values.readings import Flag, Kind
from wellbook.water.values.signs import normal_name

REPEATED = "repeated"  # doubt of each of them
_APART = {Flag.DUPLICATE, Flag.REJECTED}  # a lab says so of the second one


def repeated(results: Sequence[NewResult]) -> Iterator[tuple[list[int], Trouble]]:
    """Places of results under one name with different figures that nothing tells apart."""
    names = {result.name for result in results}
    if len(names) == len(results):
        return
    methods = {result.method for result in results}
    plain = {text: normal_name(text) for text in names | methods}
    alike: dict[tuple[str, ...], list[int]] = defaultdict(list)
    for place, result in enumerate(results):
        reading = result.reading
        if reading.kind is not Kind.NONE and not reading.flags & _APART:
            told = (reading.fraction, reading.basis, reading.unit, result.draw, result.lab)
            alike[(plain[result.name], *told, plain[result.method])].append(place)
    for places in alike.values():
        readings = [results[place].reading for place in places]
        figures = {(one.kind, one.number, one.number is None and one.text) for one in readings}
        if len(figures) > 1:
            text = _(
                "{name} stands in one sample more than once, with different figures, and nothing "
                "tells them apart: look on the report whether they are of two samples."
            ).format(name=results[places[0]].name)
            yield places, Trouble(REPEATED, text)
