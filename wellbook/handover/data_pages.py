"""For a consultant: every reading by parameter with its conversion, indices, open questions."""

from collections.abc import Iterator

from wellbook.book.overview import PointOverview
from wellbook.handover import style, words
from wellbook.handover.desk import Desk, Story, text
from wellbook.handover.glance_pages import points_of
from wellbook.handover.grid import Cell, Column, grid
from wellbook.handover.history import Judged, SampleFacts
from wellbook.handover.rounding import usual_number
from wellbook.handover.test_pages import as_reported
from wellbook.water.indices import Index, indices
from wellbook.water.plausibility import check
from wellbook.water.readings import Kind
from wellbook.water.verdicts import Verdict

_READINGS = (
    Column("Parameter", 86),
    Column("Test", 24, right=True),
    Column("Drawn", 55),
    Column("As reported", 100),
    Column("In usual unit", 84),
    Column("Reporting limit", 44),
    Column("Detection limit", 44),
    Column("Method", 72),
    Column("Lab", 20, right=True),
)
_INDICES = (
    Column("Index", 112),
    Column("Value", 84),
    Column("Test", 26, right=True),
    Column("What it says", 110),
    Column("Caution and source", 180),
)
_FINDINGS = (Column("Test", 26, right=True), Column("Kind", 50), Column("What looks odd", 436))
_BOUND = {Kind.BELOW: "< ", Kind.ABOVE: "> "}


def readings(desk: Desk) -> Story:
    """Every reading at each point, by parameter and day."""
    story: Story = [
        desk.heading("Readings by parameter", "readings"),
        text(
            "As reported, and converted to one unit and basis for each parameter; a conversion "
            "is left out where it would need a guess. Non-detects stay bounds. Labs stand by their "
            "number in the list of labs. The same figures are attached as results.csv."
        ),
    ]
    labs = {lab.name: number for number, lab in enumerate(desk.history.labs, start=1)}
    for name, point in points_of(desk):
        rows = [_reading(one, test, labs) for one, test in _ordered(desk, point)]
        story += desk.over(name, f"readings-{point.point.id}", grid(_READINGS, rows, desk.width))
    return story


def _ordered(desk: Desk, point: PointOverview) -> list[tuple[Judged, SampleFacts]]:
    """A point's readings in the catalogue's order of parameters, each by day."""
    order = {key: place for place, key in enumerate(desk.history.catalogue.parameters)}
    found = [
        (one, test)
        for test in desk.history.tests
        if test.sample.point == point.point.id
        for one in test.results
    ]
    return sorted(found, key=lambda row: order.get(row[0].result.parameter, len(order)))


def _reading(one: Judged, test: SampleFacts, labs: dict[str, int]) -> list[Cell]:
    result, parameter = one.result, one.parameter
    usual = ""
    number = usual_number(result, parameter)
    if parameter is not None and number is not None:
        figure = f"{_BOUND.get(result.reading.kind, '')}{number:f}"
        usual = " ".join(filter(None, (figure, parameter.unit, parameter.basis)))
    return [
        parameter.name if parameter else result.name,
        str(test.number),
        test.sample.collected.day.isoformat(),
        as_reported(one),
        usual,
        result.reporting_limit,
        result.detection_limit,
        result.method,
        str(labs[result.lab]) if result.lab in labs else "",
    ]


def index_tables(desk: Desk) -> Story:
    """Indices of hardness, scale, corrosion and salts, from the latest sample that gives each."""
    story: Story = [
        desk.heading("Indices", "indices"),
        text(
            "Worked out from the latest sample of a point that holds what each index needs. A "
            "range comes from non-detects, or from a temperature that nobody measured."
        ),
    ]
    for name, point in points_of(desk):
        latest: dict[str, tuple[int, Index]] = {}
        for test in desk.history.tests:
            if test.sample.point == point.point.id:
                results = [one.result for one in test.results]
                for index in indices(results, desk.history.catalogue):
                    latest[index.key] = (test.number, index)
        if latest:
            rows = [_index(number, index) for number, index in latest.values()]
            table = grid(_INDICES, rows, desk.width)
            story += desk.over(name, f"indices-{point.point.id}", table)
    return story


def _index(number: int, one: Index) -> list[Cell]:
    value = f"{one.value.text()} {one.unit}".strip()
    said = " ".join(filter(None, (one.caution, f"{one.source}.")))
    return [one.name, value, str(number), one.meaning, said]


def plausibility(desk: Desk) -> Story:
    """What looks odd in each test: it asks, and nothing was changed because of it."""
    story: Story = [
        desk.heading("Do the reports hang together", "plausibility"),
        text(
            "Each report is held against itself, against the other tests of its point, and "
            "against the calendar. A finding asks a person to look again; no reading was altered."
        ),
    ]
    rows = [row for test in desk.history.tests for row in _odd(desk, test)]
    if not rows:
        return [*story, text("Nothing was found to ask.")]
    return [*story, grid(_FINDINGS, rows, desk.width)]


def _odd(desk: Desk, test: SampleFacts) -> Iterator[list[Cell]]:
    history = desk.history
    others = [
        one.result
        for other in history.tests
        if other.sample.point == test.sample.point and other is not test
        for one in other.results
    ]
    found = check(
        [one.result for one in test.results],
        history.catalogue,
        others,
        today=history.today,
        received=test.sample.received,
    )
    for finding in found:
        kind = "question" if finding.severity == "ask" else "note"
        yield [str(test.number), kind, " ".join(filter(None, (finding.where, finding.text)))]


def questions(desk: Desk) -> Story:
    """What the record leaves open."""
    story: Story = [desk.heading("Open questions", "questions")]
    found = list(_questions(desk))
    if not found:
        return [*story, text("The record leaves none that the program can see.")]
    return [*story, *(text(f"•  {one}", style.INDENTED) for one in found)]


def _questions(desk: Desk) -> Iterator[str]:
    tests = desk.history.tests
    unknown = dict.fromkeys(
        one.result.name for test in tests for one in test.results if one.parameter is None
    )
    if unknown:
        yield f"Names that the program does not know, so not compared: {', '.join(unknown)}."
    yield from _open_verdicts(desk)
    yield from _bare(desk)
    untimed = [test.number for test in tests if test.sample.collected.at is None]
    if untimed:
        yield f"The time of day was not written down for {_listed(untimed)}."
    for facts in desk.history.wells:
        if not facts.well.construction:
            yield f"{facts.well.name}: nothing was entered about how the well was built."


def _bare(desk: Desk) -> Iterator[str]:
    """How many readings lack what would let them be compared."""
    rows = [one.result for test in desk.history.tests for one in test.results]
    without = {
        "have no method": [one for one in rows if not one.method],
        "are figures without a unit": [
            one for one in rows if one.reading.kind is Kind.NUMBER and not one.reading.unit
        ],
        "are non-detects without a reporting limit": [
            one
            for one in rows
            if one.reading.kind is Kind.BELOW
            and one.reading.number is None
            and not one.reporting_limit
        ],
    }
    for said, found in without.items():
        if found:
            yield f"{len(found):,} of {words.count(len(rows), 'reading')} {said}."


def _open_verdicts(desk: Desk) -> Iterator[str]:
    for name, point in points_of(desk):
        for one in point.standings:
            if one.now.verdict is Verdict.UNDECIDABLE:
                day = words.day(one.latest.collected.day)
                yield f"{one.parameter.name} at {name}, {day}: {one.now.why}"


def _listed(numbers: list[int]) -> str:
    return f"test{'s' if len(numbers) > 1 else ''} {', '.join(map(str, numbers))}"
