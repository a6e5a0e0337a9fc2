"""Names of a file that are longer than a book takes: found in the draft, before one is kept."""

from collections.abc import Iterable, Iterator

from wellbook.book.samples import LONGEST_LAB, LONGEST_PARAMETER
from wellbook.intake.draft import DraftSample
from wellbook.support.translation import _
from wellbook.water.values.findings import Finding, Severity

_SHOWN = 40  # letters of a long name


def too_long(samples: Iterable[DraftSample]) -> Iterator[Finding]:
    """A finding that stops for each name that a book does not take, once each."""
    parameters: dict[str, None] = {}
    labs: dict[str, None] = {}
    for sample in samples:
        labs[sample.sample.lab] = None
        for result in sample.sample.results:
            parameters[result.name] = None
            labs[result.lab] = None
    for what, names, most in (
        (_("parameter"), parameters, LONGEST_PARAMETER),
        (_("lab"), labs, LONGEST_LAB),
    ):
        yield from (_finding(what, name, most) for name in names if len(name) > most)


def _finding(what: str, name: str, most: int) -> Finding:
    text = _(
        "The name of a {what} has {n} letters; more than {most} letters can't be kept: "
        "shorten it in the file, or look whether it is a name at all."
    ).format(what=what, n=len(name), most=most)
    return Finding("long_name", text, f"“{name[:_SHOWN]}…”", Severity.STOP)
