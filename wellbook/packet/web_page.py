"""The history as one static web page: no script, nothing fetched, readable by ear and on paper.

It says what the packet says, from the same sentences, with the same private facts covered. It has
no check code: anybody can change a page of text, and it says so.
"""

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from xml.etree.ElementTree import Element, tostring

from wellbook import __version__
from wellbook.book.record import Record
from wellbook.charts.draw.drawing import svg
from wellbook.packet.answers import answer, case_words, gaps, unknowns
from wellbook.packet.charts import Figure, figures
from wellbook.packet.gather import History, SampleFacts
from wellbook.packet.options import PacketOptions
from wellbook.packet.packet import language, tell
from wellbook.packet.pages.about import YARDSTICKS, in_packet, translated
from wellbook.packet.pages.cover import warnings
from wellbook.packet.pages.results import as_reported
from wellbook.packet.web_parts import STYLE, Part, listed, section, table, tag
from wellbook.planning import flow_test
from wellbook.planning.advice import EVERYBODY, advice_at
from wellbook.planning.place.whom_to_ask import for_a_reader
from wellbook.planning.settings import scheme
from wellbook.sandbox.process import CancelCheck, never_cancelled
from wellbook.support import paths, translation
from wellbook.support.translation import _
from wellbook.support.whole_file import require_place, write_whole
from wellbook.water.cautions.cautions import Cautions, read_cautions
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Limit
from wellbook.wording import forecasts, paper, verdicts, vocabulary
from wellbook.wording.reference import cited, worded_cautions

_BEGIN = b"<!DOCTYPE html>\n"
# Nothing is fetched and nothing runs, whatever somebody writes into a name or a note.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def write_page(
    record: Record,
    catalogue: Catalogue,
    path: Path,
    options: PacketOptions,
    *,
    today: date,
    check_cancelled: CancelCheck = never_cancelled,
) -> None:
    """Write the history of a book's wells as one web page.

    Args:
        record: The record.
        catalogue: Parameters, limits and panels.
        path: Where to write; an existing file is replaced when the new one is whole.
        options: What a person chose; paper and originals do not matter here.
        today: The day that the page speaks of.
        check_cancelled: Called between its parts and just before the file is put in its place; what
            it raises leaves what was there.

    Raises:
        Fault: The folder can't be written, something chosen is not in the book, or there is no
            such language or choice of units.
    """
    require_place(path, _BEGIN)
    with translation.using(language(options.language)):
        history = tell(record, catalogue, today, options).history
        check_cancelled()
        cautions = worded_cautions(read_cautions(paths.resources() / "cautions.toml"))
        drawn = figures(history, scheme(record.settings), technical=options.is_technical)
        check_cancelled()
        page = _page(history, drawn, for_a_reader(cautions, record.settings))
        content = _BEGIN + tostring(page, encoding="utf-8", method="html") + b"\n"
    write_whole(path, content, check_cancelled=check_cancelled)


def _page(history: History, drawn: Sequence[Figure], cautions: Cautions) -> Element:
    limits: dict[Limit, int] = {}
    title = _("{wells}: the history of its water").format(wells=history.title)
    sections = [
        _stands(history),
        _happened(history),
        _well(history),
        _open(history),
        _cautions(history, cautions),
        _charts(drawn),
        _summary(history, limits),
        _tests(history, limits),
        _changes(history),
        _limits(history, limits),
    ]
    links = [tag("a", one.findtext("h2") or "", href=f"#{one.get('id')}") for one in sections]
    head = tag(
        "head",
        tag("meta", charset="utf-8"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("meta", **{"http-equiv": "Content-Security-Policy", "content": _POLICY}),
        tag("title", title),
        tag("style", STYLE),
    )
    body = tag(
        "body",
        tag(
            "header",
            tag("h1", history.title),
            tag("p", f"{_as_of(history)} {in_packet(history)}."),
            *(tag("p", tag("strong", said)) for said in warnings(history)),
        ),
        tag("nav", listed(links), **{"aria-label": _("Contents")}),
        tag("main", *sections),
        tag("footer", *(tag("p", said) for said in _foot(history) if said)),
    )
    return tag("html", head, body, lang=translation.current())


def _as_of(history: History) -> str:
    return _("The history of its water, as of {day}.").format(day=paper.day(history.today))


def _foot(history: History) -> list[str]:
    made = _(
        "Made with Wellbook {version} from a record whose state has the digest {digest}. Anybody "
        "can change a page like this one: where it matters, ask the household for the packet, "
        "whose check code can be compared, and for the lab’s own reports."
    )
    hidden = _("Personal facts are left out.") if not history.with_personal else ""
    return [_(YARDSTICKS), made.format(version=__version__, digest=history.digest), hidden,
            translated()]  # fmt: skip


def _stands(history: History) -> Element:
    found = answer.standings(history)
    lines = [f"{_sign(verdict)} {said}" for verdict, _unused, said in found]
    standing = [one for _name, point in answer.points(history) for one in point.standings]
    ahead = forecasts.health_ahead(standing, history.catalogue.sets, today=history.today)
    quiet = _("No latest result is outside or close to a limit, and none is left undecided. That "
              "says nothing of what was never tested, nor of the time since.")  # fmt: skip
    if not history.tests:
        quiet = _("There is no test that could show anything.")
    rows = [
        [
            row.name,
            row.point,
            row.reading,
            verdicts.word(row.judgement) if row.judgement else "",
            row.limit,
            paper.day(row.day) if row.day else "",
            gaps.age(row.day, history.today) if row.day else "",
        ]
        for row in answer.rows(history)
    ]
    heads = (_("Asked first"), _("Where"), _("Latest result"), _("By today’s limits"), _("Limit"),
             _("Drawn"), _("Age today"))  # fmt: skip
    return section(
        "stands",
        _("Where it stands"),
        listed(lines) if lines else tag("p", quiet),
        *(tag("p", said) for said in (*case_words.open_cases(history), *ahead)),
        table(_("What every reader asks after"), heads, rows),
    )


def _sign(verdict: Verdict) -> str:
    return {Verdict.OUTSIDE: "◆", Verdict.ADOPTED: "◇", Verdict.NEAR: "◐"}.get(verdict, "⊡")


def _happened(history: History) -> Element:
    past = [*answer.happened(history), *case_words.closed_cases(history)]
    if not history.tests:
        past = [_("There is no test that could show anything.")]
    said = past or [_("Nothing in these tests beside what stands above.")]
    return section("happened", _("What happened, and how it ended"), listed(said))


def _well(history: History) -> Element:
    parts = []
    for facts in history.wells:
        rows = [
            [paper.span(one.day, one.until), vocabulary.event(one.kind), flow_test.words(one)]
            for one in facts.events
        ]
        heads = (_("When"), _("What"), _("In the household’s words"))
        caption = _("{well}: events").format(well=facts.well.name)
        parts += [
            tag("h3", facts.well.name),
            tag("p", answer.well_words(facts)),
            *([table(caption, heads, rows)] if rows else []),
        ]
    return section(
        "well",
        _("The well and what stands behind it"),
        *(parts or [tag("p", _("No well was entered."))]),
    )


def _open(history: History) -> Element:
    return section(
        "open",
        _("Not known"),
        listed(unknowns.not_known(history)),
        tag("h3", _("Ask for")),
        listed(unknowns.to_ask(history)),
    )


def _cautions(history: History, cautions: Cautions) -> Element:
    parts = [tag("p", said) for said in cautions.general]
    for name, point in answer.points(history):
        told = advice_at(point, history.beside(point), cautions, EVERYBODY, history.today)
        if told:
            parts.append(tag("h3", name))
            parts += [
                tag("p", tag("strong", f"{', '.join(one.names)}."), f" {one.text}") for one in told
            ]
    return section("cautions", _("Usual cautions"), *parts)


def _charts(drawn: Sequence[Figure]) -> Element:
    parts: list[Element] = []
    for place, figure in enumerate(drawn):
        said = (*figure.chart.sentences, *figure.summary, *figure.chart.notes)
        picture = svg(figure.chart, f"c{place}-", " ".join(figure.chart.sentences))
        caption = tag("figcaption", *(tag("p", one) for one in said))
        parts += [tag("h3", figure.title), tag("figure", picture, caption)]
    none = _("No parameter was tested at least twice, so there is nothing to draw.")
    return section("charts", _("Charts"), *(parts or [tag("p", none)]))


def _number(limits: dict[Limit, int], limit: Limit | None) -> Element | str:
    if limit is None:
        return "–"
    n = limits.setdefault(limit, len(limits) + 1)
    return tag("a", f"[{n}]", href=f"#limit-{n}")


def _summary(history: History, limits: dict[Limit, int]) -> Element:
    heads = (_("Parameter"), _("Tests"), _("Latest reading"), _("Drawn"), _("On that day"),
             _("By today’s limits"), _("Limit"))  # fmt: skip
    parts = []
    for name, point in answer.points(history):
        rows = [
            [
                one.parameter.name,
                str(one.n),
                paper.shown(one.latest.reading, one.parameter),
                paper.day(one.latest.collected.day),
                verdicts.word(one.then),
                verdicts.word(one.now),
                _number(limits, one.now.limit),
            ]
            for one in point.standings
        ]
        if rows:
            parts.append(table(paper.with_side(name, treated=point.point.treated), heads, rows))
    return section("summary", _("Every parameter in one line"), *parts)


def _tests(history: History, limits: dict[Limit, int]) -> Element:
    parts = [part for test in history.tests for part in _test(test, limits)]
    return section("tests", _("All tests in order"), *(parts or [tag("p", _("None yet."))]))


def _test(test: SampleFacts, limits: dict[Limit, int]) -> Iterator[Element]:
    sample = test.sample
    title = _("Test {number}: {when}, {where}").format(
        number=test.number, when=paper.moment(sample.collected), where=f"{test.well}, {test.point}"
    )
    yield tag("h3", title, id=f"test-{test.number}")
    lab = ", ".join(filter(None, (sample.lab, sample.lab_number)))
    told = [
        _("lab: {lab}").format(lab=lab) if lab else "",
        _("drawn by {who}").format(who=sample.sampler) if sample.sampler else "",
        _("note: {note}").format(note=sample.note) if sample.note else "",
    ]
    if any(told):
        yield tag("p", "; ".join(filter(None, told)))
    heads = (_("As printed"), _("Reading as reported"), _("Method"), _("On that day"),
             _("By today’s limits"), _("Limit"))  # fmt: skip
    rows = [
        [
            one.result.name,
            as_reported(one),
            one.result.method,
            verdicts.word(one.then),
            verdicts.word(one.now),
            _number(limits, one.now.limit or one.then.limit),
        ]
        for one in test.results
    ]
    yield table(title, heads, rows)


def _changes(history: History) -> Element:
    rows = [
        [paper.loose_day(one.at[:10]), one.what, one.before, one.after, one.reason]
        for one in history.corrections
    ]
    heads = (_("Changed on"), _("What"), _("Before"), _("After"), _("Reason given"))
    struck = [
        _("Test {number} was struck out because: {reason}").format(
            number=test.number, reason=test.sample.struck
        )
        for test in history.struck
    ]
    none = tag("p", _("No test and no reading was changed after it was entered."))
    return section(
        "changes",
        _("Corrections and struck tests"),
        table(_("Every change of a test or a reading after it was entered; days are in UTC."),
              heads, rows) if rows else none,
        listed(struck) if struck else tag("p", _("No test was struck out.")),
    )  # fmt: skip


def _limits(history: History, limits: dict[Limit, int]) -> Element:
    heads = (_("No."), _("Parameter"), _("Limit"), _("Set and kind"), _("In force"), _("Source"))
    rows: list[list[Part]] = [
        [
            tag("span", f"[{number}]", id=f"limit-{number}"),
            history.catalogue.parameters[limit.parameter].name,
            paper.bound_shown(
                paper.bound(limit), limit, history.catalogue.parameters[limit.parameter]
            ),
            f"{history.catalogue.sets[limit.set].name}, {verdicts.kind(limit.kind)}",
            paper.force(limit),
            cited(limit.source),
        ]
        for limit, number in limits.items()
    ]
    title = _("Limits used, with their sources")
    none = tag("p", _("No verdict in this packet rests on a limit."))
    return section("limits", title, table(title, heads, rows) if rows else none)
