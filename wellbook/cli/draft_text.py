"""What `add` answers: the draft of a lab's file to look over, and where it was put."""

from collections.abc import Iterator, Sequence
from typing import Any

from wellbook.book.rows import NewResult
from wellbook.intake.draft import NO_DAY, Draft, DraftSample, Stored
from wellbook.support.translation import _, ngettext
from wellbook.water.values.findings import Finding
from wellbook.wording import vocabulary

Facts = dict[str, Any]


def draft_facts(drafts: Sequence[Draft], stored: Sequence[Stored]) -> Facts:
    """Each file's samples and findings, and the numbers under which they were stored."""
    return {
        "files": [
            {
                "file": str(draft.source),
                "samples": [_sample_facts(one) for one in draft.samples],
                "findings": [_finding_facts(finding) for finding in draft.findings],
            }
            for draft in drafts
        ],
        "stored": [
            {
                "samples": list(one.ids),
                "places": [list(place) for place in one.places],
                "made": [list(place) for place in one.made],
                "already_there": one.skipped,
            }
            for one in stored
        ],
    }


def _sample_facts(one: DraftSample) -> Facts:
    return {
        "point": one.point_name,
        "collected": None if one.sample.collected.day == NO_DAY else one.sample.collected.iso(),
        "lab": one.sample.lab,
        "lab_number": one.sample.lab_number,
        "results": [_result_facts(new) for new in one.sample.results],
        "findings": [_finding_facts(finding) for finding in one.findings],
    }


def _result_facts(new: NewResult) -> Facts:
    return {
        "key": new.parameter or None,
        "name": new.name,
        "reported": new.reading.text,
        "kind": str(new.reading.kind),
        "unit": new.reading.unit,
        "basis": new.reading.basis,
        "fraction": new.reading.fraction,
        "method": new.method,
    }


def _finding_facts(finding: Finding) -> Facts:
    return {
        "key": finding.key,
        "severity": finding.severity,
        "where": finding.where,
        "text": finding.text,
    }


def draft_lines(drafts: Sequence[Draft], stored: Sequence[Stored]) -> Iterator[str]:
    """The same to read."""
    for draft in drafts:
        n = sum(len(one.sample.results) for one in draft.samples)
        results = ngettext("{n} reading", "{n} readings", n).format(n=n)
        yield f"{draft.source.name}: {_tests(len(draft.samples))}, {results}"
        for one in draft.samples:
            yield from _sample_lines(one)
        yield from map(_finding_line, draft.findings)
    for kept in stored:
        yield from _stored_lines(kept)
    if not stored:
        yield _("Nothing was stored. Run it again with --accept to store it.")


def _sample_lines(one: DraftSample) -> Iterator[str]:
    day = one.sample.collected
    facts = (
        _("no sampling day") if day.day == NO_DAY else day.iso().replace("T", " "),
        one.point_name,
        one.sample.lab,
        one.sample.lab_number,
    )
    yield f"  {', '.join(filter(None, facts))}"
    for new in one.sample.results:
        reading = new.reading
        shown = " ".join(filter(None, (reading.text, reading.unit, reading.basis)))
        extra = ", ".join(filter(None, (vocabulary.fraction(reading.fraction), new.method)))
        unknown = "" if new.parameter else _("  [name not known, kept as printed]")
        yield f"    {new.name}: {shown}{f' ({extra})' if extra else ''}{unknown}"
    yield from map(_finding_line, one.findings)


def _finding_line(finding: Finding) -> str:
    where = f" ({finding.where})" if finding.where and finding.where not in finding.text else ""
    return f"  {vocabulary.severity(finding.severity)}: {finding.text}{where}"


def _stored_lines(one: Stored) -> Iterator[str]:
    for place in one.made:
        yield _("Made the sampling point {place} of the well {place2}.").format(
            place=place[1], place2=place[0]
        )
    if one.ids:
        where = "; ".join(f"{well}, {point}" for well, point in one.places)
        yield _("Stored {tests} at {where}.").format(tests=_tests(len(one.ids)), where=where)
    if one.skipped:
        said = ngettext(
            "{n} test of the file was in the book already, word for word.",
            "{n} tests of the file were in the book already, word for word.",
            one.skipped,
        )
        yield said.format(n=one.skipped)


def _tests(n: int) -> str:
    return ngettext("{n} test", "{n} tests", n).format(n=n)
