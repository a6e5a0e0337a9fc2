"""What `add` answers: the draft of a lab's file to look over, and where it was put."""

from collections.abc import Iterator, Sequence
from typing import Any

from wellbook.book.rows import NewResult
from wellbook.cli.adding import Added
from wellbook.intake import NotTaken, Place
from wellbook.intake.draft import NO_DAY, Draft, DraftSample, Mark, Stored
from wellbook.intake.reviewing import count_outside
from wellbook.intake.said import by_reason, completed_words, left_words, outside_words, said_taken
from wellbook.support.translation import _, ngettext
from wellbook.water.values.findings import Finding
from wellbook.wording import facts, vocabulary

Facts = dict[str, Any]
_NAMED = 4  # of what was not taken for one reason


def draft_facts(taken: Added) -> Facts:
    """Each file's samples and findings, and the numbers under which they were stored."""
    return {
        "files": [
            {
                "file": str(draft.source),
                "taken": draft.taken,
                "figures": draft.figures,
                "not_taken": [_left_facts(left) for left in draft.not_taken],
                "samples": [
                    _sample_facts(one, verdicts)
                    for one, verdicts in zip(draft.samples, judged, strict=True)
                ],
                "findings": [_finding_facts(finding) for finding in draft.findings],
            }
            for draft, judged in zip(taken.drafts, taken.verdicts, strict=True)
        ],
        "failed": [{"file": name, "why": why} for name, why in taken.failed],
        "stored": [
            {
                "samples": list(one.ids),
                "places": [list(place) for place in one.places],
                "made": [list(place) for place in one.made],
                "already_there": one.skipped,
                "added": one.added,
                "corrected": one.corrected,
            }
            for one in taken.stored
        ],
    }


def _left_facts(left: NotTaken) -> Facts:
    return {
        "what": left.what,
        "why": left.why,
        "aside": left.is_aside,
        "place": _place_facts(left.place),
    }


def _place_facts(place: Place) -> Facts:
    """A box on a page, or a cell of a sheet."""
    if place.page:
        return {
            "page": place.page,
            "line": place.row,
            "box": list(place.box) if place.box else None,
        }
    return {"sheet": place.sheet, "row": place.row, "column": place.column}


def _day(one: DraftSample) -> str | None:
    """The day or moment of a sample; a month or a year where only that is known."""
    return None if one.sample.collected.day == NO_DAY else one.sample.collected.iso()


def _sample_facts(one: DraftSample, verdicts: Sequence[str]) -> Facts:
    return {
        "point": one.point_name,
        "collected": _day(one),
        "lab": one.sample.lab,
        "lab_number": one.sample.lab_number,
        "results": [
            {**_result_facts(new, mark, one), "verdict": verdict}
            for new, mark, verdict in zip(one.sample.results, one.marks, verdicts, strict=True)
        ],
        "findings": [_finding_facts(finding) for finding in one.findings],
    }


def _result_facts(new: NewResult, mark: Mark, one: DraftSample) -> Facts:
    number = new.reading.number
    return {
        "key": new.parameter or None,
        "name": new.name,
        "reported": new.reading.text,
        "kind": str(new.reading.kind),
        "number": None if number is None else f"{number:f}",
        "unit": new.reading.unit,
        "basis": new.reading.basis,
        "fraction": new.reading.fraction,
        "draw": new.draw or one.sample.draw,
        "method": new.method,
        "reporting_limit": new.reporting_limit,
        "detection_limit": new.detection_limit,
        "qualifier": new.qualifier,
        "certain": mark.is_certain,
        "doubts": list(mark.doubts),
        "place": _place_facts(mark.place),
    }


def _finding_facts(finding: Finding) -> Facts:
    return {
        "key": finding.key,
        "severity": finding.severity,
        "where": finding.where,
        "text": finding.text,
    }


def draft_lines(taken: Added) -> Iterator[str]:
    """The same to read."""
    for draft, judged in zip(taken.drafts, taken.verdicts, strict=True):
        n = sum(len(one.sample.results) for one in draft.samples)
        results = ngettext("{n} reading", "{n} readings", n).format(n=n)
        told = (_tests(len(draft.samples)), results, outside_words(count_outside(judged)))
        yield f"{draft.source.name}: {', '.join(filter(None, told))}"
        yield f"  {said_taken(draft)}"
        said: dict[int, str] = {}  # by identity: rows that say the same share one result
        for one in draft.samples:
            yield from _sample_lines(one, said)
        yield from map(_finding_line, draft.findings)
        yield from _left_lines(draft)
    for name, why in taken.failed:
        yield _("Left out: {name}: {why}").format(name=name, why=why)
    for kept, judged in zip(taken.stored, taken.kept_verdicts, strict=True):
        yield from _stored_lines(kept, count_outside(judged))
    if not taken.stored:
        yield _("Nothing was stored. Run it again with --accept to store it.")


def _left_lines(draft: Draft) -> Iterator[str]:
    """What was not taken, one line each; many for one reason are counted."""
    for left in by_reason(draft.not_taken):
        yield f"  {left_words(*left, most=_NAMED)}"


def _sample_lines(one: DraftSample, said: dict[int, str]) -> Iterator[str]:
    day = _day(one)
    told = (
        _("no sampling day") if day is None else day.replace("T", " "),
        one.point_name,
        one.sample.lab,
        one.sample.lab_number,
    )
    yield f"  {', '.join(filter(None, told))}"
    for new in one.sample.results:
        if id(new) not in said:
            said[id(new)] = _result_line(new)
        yield said[id(new)]
    yield from map(_finding_line, one.findings)


def _result_line(new: NewResult) -> str:
    reading = new.reading
    shown = facts.with_unit(reading.text, reading.unit, reading.basis)
    extra = ", ".join(filter(None, (vocabulary.fraction(reading.fraction), new.method)))
    unknown = "" if new.parameter else _("  [name not known, kept as printed]")
    return f"    {new.name}: {shown}{f' ({extra})' if extra else ''}{unknown}"


def _finding_line(finding: Finding) -> str:
    where = f" ({finding.where})" if finding.where and finding.where not in finding.text else ""
    return f"  {vocabulary.severity(finding.severity)}: {finding.text}{where}"


def _stored_lines(one: Stored, n: int) -> Iterator[str]:
    outside = f" {outside_words(n)}." if n else ""
    for place in one.made:
        yield _("Made the sampling point {place} of the well {place2}.").format(
            place=place[1], place2=place[0]
        )
    if one.ids:
        where = "; ".join(f"{well}, {point}" for well, point in one.places)
        said = _("Stored {tests} at {where}.").format(tests=_tests(len(one.ids)), where=where)
        yield said + outside
    if one.added or one.corrected:
        yield completed_words(one.added, one.corrected) + outside
    if one.skipped:
        said = ngettext(
            "{n} test of the file was in the book already, word for word.",
            "{n} tests of the file were in the book already, word for word.",
            one.skipped,
        )
        yield said.format(n=one.skipped)


def _tests(n: int) -> str:
    return ngettext("{n} test", "{n} tests", n).format(n=n)
