"""What a bacteria sample says: found, nothing found, or nothing that can be relied on."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Verdict, judge

# Those whose finding opens a case; a plate count or slime bacteria are a nuisance.
_COLIFORM = "total_coliform"
TOLD_BY = (_COLIFORM, "e_coli", "fecal_coliform")
_CHLORINE = ("chlorine_residual", "chlorine_total")
WITH_BACTERIA = (*TOLD_BY, *_CHLORINE)  # what is read of a sample's results here


class Sign(StrEnum):
    """What a sample says of bacteria."""

    FOUND = "found"
    CLEAN = "clean"
    NOTHING = "nothing"  # held too long, overgrown, rejected, not understood


@dataclass(frozen=True, slots=True)
class BacteriaTest:
    """The bacteria results of one sample.

    Attributes:
        day: Day of collection.
        sign: What they say taken together; one finding is a finding.
        names: Names of the parameters that were found.
        chlorine: Whether chlorine was found in the sample: it hides bacteria.
        only: Of a sample without total coliform the names of what was tested in its place; empty
            where total coliform was tested, which the others are kinds of.
    """

    day: date
    sign: Sign
    names: tuple[str, ...] = ()
    chlorine: bool = False
    only: tuple[str, ...] = ()

    def is_clean_of(self, names: Collection[str]) -> bool:
        """Whether it shows that none of some bacteria, by their names, is there any more."""
        is_told = not self.only or set(names) <= set(self.only)
        return self.sign is Sign.CLEAN and is_told and not self.chlorine


def sign(result: Result, catalogue: Catalogue) -> Sign:
    """What one bacteria result says, by the rule that none may be found."""
    parameter = catalogue.parameters[result.parameter]
    verdict = judge(result, _none_allowed(result.parameter), parameter, beside=()).verdict
    return {Verdict.OUTSIDE: Sign.FOUND, Verdict.UNDETECTED: Sign.CLEAN}.get(verdict, Sign.NOTHING)


def says_nothing(result: Result, catalogue: Catalogue) -> bool:
    """Whether it is a bacteria result that leaves the question open, so that none was had."""
    return result.parameter in TOLD_BY and sign(result, catalogue) is Sign.NOTHING


def bacteria_tests(results: Iterable[Result], catalogue: Catalogue) -> tuple[BacteriaTest, ...]:
    """The bacteria samples of one point in order of time, from its results."""
    samples: dict[int, list[Result]] = {}
    for result in sorted(results, key=lambda one: (one.collected.order(), one.sample)):
        samples.setdefault(result.sample, []).append(result)
    tests = (_test(rows, catalogue) for rows in samples.values())
    return tuple(filter(None, tests))


def _test(rows: Sequence[Result], catalogue: Catalogue) -> BacteriaTest | None:
    signs = [(row.parameter, sign(row, catalogue)) for row in rows if _tells(row)]
    if not signs:
        return None
    found = tuple(catalogue.parameters[key].name for key in TOLD_BY if (key, Sign.FOUND) in signs)
    tested = [catalogue.parameters[key].name for key, _told in signs if key != _COLIFORM]
    clean = all(told is Sign.CLEAN for _, told in signs)
    return BacteriaTest(
        rows[0].collected.day,
        Sign.FOUND if found else Sign.CLEAN if clean else Sign.NOTHING,
        found,
        any(row.parameter in _CHLORINE and _is_there(row) for row in rows),
        () if len(tested) < len(signs) else tuple(dict.fromkeys(tested)),
    )


def _tells(result: Result) -> bool:
    return result.parameter in TOLD_BY and result.reading.kind not in {Kind.NONE, Kind.TEXT}


def _is_there(result: Result) -> bool:
    return result.reading.is_detect and result.reading.number != 0


def _none_allowed(parameter: str) -> Limit:
    return Limit(
        set="", parameter=parameter, kind=LimitKind.HEALTH, rule=Rule.ABSENT, low=None, high=None,
        unit="per 100 mL", basis="", fraction="", condition="", start="", end="",
        source="", where="", checked=True, note="",
    )  # fmt: skip
