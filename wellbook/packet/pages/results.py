"""Every test in order, every reading as it was reported."""

from collections.abc import Iterator

from reportlab.platypus import CondPageBreak, KeepTogether

from wellbook.book.rows import Sample
from wellbook.packet.context import PacketContext, Story, marked, text
from wellbook.packet.gather import Judged, SampleFacts
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.support.translation import N_, _, ngettext
from wellbook.wording import paper, vocabulary
from wellbook.wording.reasons import why

_COLUMNS = (
    Column(N_("Reading as reported"), 100),
    Column(N_("Reporting limit"), 50),
    Column(N_("Method"), 78),
    Column(N_("On that day"), 66),
    Column(N_("By today’s limits"), 66),
    Column(N_("Limit"), 36),
)
_WHOLE = 14  # rows; a longer table may go on on the next page, a shorter one stays whole
_ROOM = 130.0  # points that a longer table needs to begin on a page


def tests(context: PacketContext) -> Story:
    """All tests that count, the earliest first."""
    story: Story = [context.heading(_("All tests in order"), "tests")]
    if not context.history.tests:
        return [*story, text(_("None yet."))]
    story.append(
        text(
            _(
                "Text, unit and basis stand as the lab printed them. “As N” and “as NO3” are "
                "different figures for the same water: mind the basis when you compare."
            )
        )
    )
    for test in context.history.tests:
        story += one_test(context, test)
    return story


def one_test(context: PacketContext, test: SampleFacts) -> Story:
    """One test: where, when and by whom, then its readings."""
    sample = test.sample
    title = _("Test {number}: {when}, {where}").format(
        number=test.number,
        when=paper.moment(sample.collected),
        where=where(context, test),
    )
    story: Story = [
        context.second(title, test_key(test)),
        text(". ".join(_facts(test)) + ".", style.SMALL),
        *_remarks(test),
    ]
    if not test.results:
        return [*story, text(_("No readings were entered."), style.SMALL)]
    columns = (Column(_("Test {number}: as printed").format(number=test.number), 112), *_COLUMNS)
    story.append(grid(columns, [_row(context, test, one) for one in test.results], context.width))
    return [KeepTogether(story)] if len(test.results) <= _WHOLE else [CondPageBreak(_ROOM), *story]


def test_key(test: SampleFacts) -> str:
    """The link's end at a test."""
    return f"test-{test.number}"


def where(context: PacketContext, test: SampleFacts) -> str:
    """The point of a test, with its well where there are several."""
    return f"{test.well}, {test.point}" if len(context.history.wells) > 1 else test.point


def _facts(test: SampleFacts) -> list[str]:
    sample = test.sample
    who = ", ".join(filter(None, (sample.sampler, vocabulary.drawn_by(sample.standing))))
    purpose = vocabulary.purpose(sample.purpose)
    kept = len(test.documents)
    told = (
        _("after treatment") if test.treated else _("before treatment"),
        _("drawn by {who}").format(who=who) if who else "",
        _("purpose: {purpose}").format(purpose=purpose) if purpose else "",
        vocabulary.draw(sample.draw),
        *_at_the_lab(sample),
        ngettext("originals: {n:,} document", "originals: {n:,} documents", kept).format(n=kept)
        if kept
        else "",
        _("rain of the ten days before: {rain}").format(rain=sample.rain) if sample.rain else "",
        _("note: {note}").format(note=sample.note) if sample.note else "",
    )
    return [one[0].upper() + one[1:].rstrip(".") for one in told if one]


def _at_the_lab(sample: Sample) -> Iterator[str]:
    """Which lab, and when the sample came there and its report from there."""
    if sample.lab:
        yield _("lab: {lab}").format(lab=sample.lab)
    if sample.lab_number:
        yield _("lab’s number {number}").format(number=sample.lab_number)
    if sample.dispatched:
        yield _("sent off {when}").format(when=paper.moment(sample.dispatched))
    if sample.received:
        yield _("received {when}").format(when=paper.moment(sample.received))
    if sample.temperature:
        yield _("at {temperature}").format(temperature=sample.temperature)
    if sample.reported:
        yield _("reported {day}").format(day=paper.loose_day(sample.reported))


def _row(context: PacketContext, test: SampleFacts, one: Judged) -> list[Cell]:
    result = one.result
    lab = f" ({result.lab})" if result.lab and result.lab != test.sample.lab else ""
    return [
        result.name,
        "\n".join(filter(None, (as_reported(one), paper.also(result.reading, one.parameter)))),
        result.reporting_limit,
        f"{result.method}{lab}".strip(),
        marked(one.then),
        marked(one.now),
        context.references(one.then, one.now),
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
            for said in dict.fromkeys(filter(None, map(why, (one.then, one.now)))):
                names.setdefault(said, []).append(one.result.name)
    return [text(f"{', '.join(known)}: {said}", style.SMALL) for said, known in names.items()]
