"""Whether a lab's accreditation was valid on the day of a sample, as far as it was entered."""

from collections.abc import Iterable, Iterator
from datetime import date

from wellbook.book.rows import Lab, Sample
from wellbook.water.findings import Finding


def covers(lab: Lab, day: date) -> bool | None:
    """Whether it was valid on a day; None where nothing was entered about that.

    A month or year as a bound is taken whole.
    """
    if not lab.valid_from and not lab.valid_to:
        return None
    text = day.isoformat()
    has_begun = not lab.valid_from or lab.valid_from <= text[: len(lab.valid_from)]
    has_ended = bool(lab.valid_to) and text[: len(lab.valid_to)] > lab.valid_to
    return has_begun and not has_ended


def lab_warnings(labs: Iterable[Lab], samples: Iterable[Sample]) -> Iterator[Finding]:
    """Samples whose lab was not accredited on the day they were drawn, as far as is known."""
    known = {lab.name: lab for lab in labs}
    for sample in samples:
        lab, day = known.get(sample.lab), sample.collected.day
        if lab is not None and covers(lab, day) is False:
            bounds = f"{lab.valid_from or '?'} to {lab.valid_to or 'now'}"
            yield Finding(
                "accreditation",
                f"The accreditation entered for {lab.name} ({bounds}) does not cover the test of "
                f"{day.isoformat()}. Ask the lab for its certificate of that day.",
                where=f"test of {day.isoformat()}",
                severity="ask",
            )
