"""Every test in order, every reading as it was reported."""

from collections.abc import Iterator

from reportlab.platypus import CondPageBreak, KeepTogether

from wellbook.book.rows import Sample
from wellbook.packet.context import Desk, Story, marked, text
from wellbook.packet.gather import Judged, SampleFacts
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.support.translation import count, mark, say
from wellbook.wording import paper, vocabulary

_COLUMNS = (
    Column(mark("Reading as reported"), 100),
    Column(mark("Reporting limit"), 50),
    Column(mark("Method"), 78),
    Column(mark("On that day"), 66),
    Column(mark("By today’s limits"), 66),
    Column(mark("Limit"), 36),
)
_WHOLE = 14  # rows; a longer table may go on on the next page, a shorter one stays whole
_ROOM = 130.0  # points that a longer table needs to begin on a page


def tests(desk: Desk) -> Story:
    """All tests that count, the earliest first."""
    story: Story = [desk.heading(say("All tests in order"), "tests")]
    if not desk.history.tests:
        return [*story, text(say("None yet."))]
    story.append(
        text(
            say(
                "Text, unit and basis stand as the lab printed them. “As N” and “as NO3” are "
                "different figures for the same water: mind the basis when you compare."
            )
        )
    )
    for test in desk.history.tests:
        story += one_test(desk, test)
    return story


def one_test(desk: Desk, test: SampleFacts) -> Story:
    """One test: where, when and by whom, then its readings."""
    sample = test.sample
    title = say(
        "Test {number}: {when}, {where}",
        number=test.number,
        when=paper.moment(sample.collected),
        where=where(desk, test),
    )
    story: Story = [
        desk.second(title, test_key(test)),
        text(". ".join(_facts(test)) + ".", style.SMALL),
        *_remarks(test),
    ]
    if not test.results:
        return [*story, text(say("No readings were entered."), style.SMALL)]
    columns = (Column(say("Test {number}: as printed", number=test.number), 112), *_COLUMNS)
    story.append(grid(columns, [_row(desk, test, one) for one in test.results], desk.width))
    return [KeepTogether(story)] if len(test.results) <= _WHOLE else [CondPageBreak(_ROOM), *story]


def test_key(test: SampleFacts) -> str:
    """The link's end at a test."""
    return f"test-{test.number}"


def where(desk: Desk, test: SampleFacts) -> str:
    """The point of a test, with its well where there are several."""
    return f"{test.well}, {test.point}" if len(desk.history.wells) > 1 else test.point


def _facts(test: SampleFacts) -> list[str]:
    sample = test.sample
    who = ", ".join(filter(None, (sample.sampler, vocabulary.drawn_by(sample.standing))))
    purpose = vocabulary.purpose(sample.purpose)
    kept = len(test.documents)
    told = (
        say("after treatment") if test.treated else say("before treatment"),
        say("drawn by {who}", who=who) if who else "",
        say("purpose: {purpose}", purpose=purpose) if purpose else "",
        vocabulary.draw(sample.draw),
        *_at_the_lab(sample),
        count("originals: {n:,} document", "originals: {n:,} documents", kept) if kept else "",
        say("rain of the ten days before: {rain}", rain=sample.rain) if sample.rain else "",
        say("note: {note}", note=sample.note) if sample.note else "",
    )
    return [one[0].upper() + one[1:].rstrip(".") for one in told if one]


def _at_the_lab(sample: Sample) -> Iterator[str]:
    """Which lab, and when the sample came there and its report from there."""
    if sample.lab:
        yield say("lab: {lab}", lab=sample.lab)
    if sample.lab_number:
        yield say("lab’s number {number}", number=sample.lab_number)
    if sample.dispatched:
        yield say("sent off {when}", when=paper.moment(sample.dispatched))
    if sample.received:
        yield say("received {when}", when=paper.moment(sample.received))
    if sample.temperature:
        yield say("at {temperature}", temperature=sample.temperature)
    if sample.reported:
        yield say("reported {day}", day=paper.loose_day(sample.reported))


def _row(desk: Desk, test: SampleFacts, one: Judged) -> list[Cell]:
    result = one.result
    lab = f" ({result.lab})" if result.lab and result.lab != test.sample.lab else ""
    return [
        result.name,
        "\n".join(filter(None, (as_reported(one), paper.also(result.reading, one.parameter)))),
        result.reporting_limit,
        f"{result.method}{lab}".strip(),
        marked(one.then),
        marked(one.now),
        desk.references(one.then, one.now),
    ]


def as_reported(one: Judged) -> str:
    """Text, unit, basis and fraction as printed, then the lab's letters and what they mean."""
    said = one.result.reading
    letters = ": ".join(filter(None, (one.result.qualifier, paper.flags(said))))
    return " ".join(filter(None, (paper.with_fraction(said), f"({letters})" if letters else "")))


def _remarks(test: SampleFacts) -> Story:
    """What the verdicts of a test rest on, the same remark once for all its parameters."""
    names: dict[str, list[str]] = {}
    for one in test.results:
        if one.parameter is not None:
            for why in dict.fromkeys(filter(None, (one.then.why, one.now.why))):
                names.setdefault(why, []).append(one.result.name)
    return [text(f"{', '.join(known)}: {why}", style.SMALL) for why, known in names.items()]
