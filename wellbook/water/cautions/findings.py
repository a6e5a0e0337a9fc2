"""What each reading of a sample amounts to for people: outside, undecided, found, and from when."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import IntEnum

from wellbook.water.cautions.cautions import Caution, Cautions, PersonCaution
from wellbook.water.units.basis import NoConversion, choices
from wellbook.water.units.conversion import convert
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import ADVISED_KINDS, HEALTH_KINDS, NEAR_SHARE
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Kind, Reading

GERMS = frozenset({"total_coliform", "e_coli", "fecal_coliform", "enterococci"})


class Finding(IntEnum):
    """What a reading amounts to, from nothing to over a limit; the higher the worse."""

    NOTHING = 0
    MET = 1  # detected, and a limit allows it
    FOUND = 2  # detected, and no set has a limit
    NEAR = 3  # allowed, and close to a limit for health
    TASTE = 4  # over a level of taste, looks or operation
    ADOPTED = 5  # over a limit that does not bind yet
    UNDECIDED = 6  # it may be over a limit for health
    OVER = 7


@dataclass(frozen=True, slots=True)
class Judged:
    """A reading of a sample, or a sum of several, with all its judgements of today.

    Attributes:
        parameter: The parameter.
        reading: What the lab wrote; None for a sum that was added up.
        judgements: How it stands to each limit of today.
        day: Day of the sample; None if it does not matter.
    """

    parameter: Parameter
    reading: Reading | None
    judgements: tuple[Judgement, ...]
    day: date | None = None

    @property
    def is_low(self) -> bool:
        """Whether it is below a range."""
        return any(
            one.verdict is Verdict.OUTSIDE
            and one.limit is not None
            and one.limit.low is not None
            and one.value is not None
            and one.value < one.limit.low
            for one in self.judgements
        )


def finding(one: Judged, caution: Caution | None) -> Finding:
    """The worst that the judgements of a reading amount to."""
    any_limit = caution is not None and caution.any_limit
    found = [_of_judgement(judgement, one, any_limit=any_limit) for judgement in one.judgements]
    if not found:
        found = [Finding.FOUND]
    worst = max(found)
    reading = one.reading
    is_detect = reading is None or reading.is_detect
    if one.parameter.key in GERMS and worst is Finding.FOUND and reading and reading.number != 0:
        return Finding.OVER if is_detect else Finding.NOTHING  # none may be found, by any set
    return worst if is_detect or worst > Finding.FOUND else Finding.NOTHING


def is_near(one: Judged) -> bool:
    """Whether a figure is close to a limit for health or an advisory, whatever else it is over."""
    return any(
        judgement.value is not None
        and (limit := judgement.limit) is not None
        and limit.kind in ADVISED_KINDS
        and limit.high is not None
        and judgement.value >= NEAR_SHARE * limit.high > 0
        for judgement in one.judgements
    )


def is_none_found(one: Judged) -> bool:
    """Whether bacteria were looked for and none were found, as far as the lab can tell."""
    reading = one.reading
    if reading is None or reading.kind in {Kind.NONE, Kind.TEXT}:
        return False
    is_none = not reading.is_detect or reading.number == 0
    return is_none and not any(judgement.needs_attention for judgement in one.judgements)


def finding_by(one: Judged, cautions: Cautions) -> Finding:
    """What a reading amounts to by the caution of its parameter."""
    return finding(one, cautions.of.get(one.parameter.key))


def _of_judgement(judgement: Judgement, one: Judged, *, any_limit: bool) -> Finding:
    limit, verdict = judgement.limit, judgement.verdict
    is_health = limit is None or limit.kind in ADVISED_KINDS or any_limit
    if verdict is Verdict.OUTSIDE:
        return Finding.OVER if is_health else Finding.TASTE
    if verdict is Verdict.ADOPTED:
        return Finding.ADOPTED
    if verdict is Verdict.UNDECIDABLE:
        if is_health and _may_be_over(judgement, one):
            return Finding.UNDECIDED
        is_detect = one.reading is None or one.reading.is_detect
        return Finding.NEAR if is_detect and _is_close(judgement) else Finding.MET
    if verdict is Verdict.NEAR or _is_close(judgement):
        return Finding.NEAR
    return Finding.FOUND if verdict is Verdict.NO_LIMIT else Finding.MET


def _is_close(judgement: Judgement) -> bool:
    """Whether its figure is close to a limit for health by the usual share.

    A household that calls less close to a limit gets no fewer cautions, nor does one whose figure
    could not be judged.
    """
    limit, value = judgement.limit, judgement.value
    is_figure = judgement.verdict in {Verdict.WITHIN, Verdict.UNDECIDABLE}
    if not is_figure or limit is None or limit.kind not in HEALTH_KINDS:
        return False
    return bool(limit.high and value is not None and value >= NEAR_SHARE * limit.high)


def _may_be_over(judgement: Judgement, one: Judged) -> bool:
    """Whether a figure that could not be judged may be over, so that it does not count as met.

    What was not detected by a coarse method, and what a filter or a flush leaves open though the
    figure itself is below the limit, is no finding; what is more than its figure, and bacteria that
    can't be told, are one.
    """
    if one.parameter.key in GERMS:
        return one.reading is not None and one.reading.kind not in {Kind.NONE, Kind.TEXT}
    if one.reading is None:
        return True
    if not one.reading.is_detect:
        return False
    limit, value = judgement.limit, judgement.value
    is_above = one.reading.kind is Kind.ABOVE
    return is_above or limit is None or limit.high is None or value is None or value > limit.high


def reaches(one: Judged, said: PersonCaution, found: Finding) -> bool:
    """Whether a reading comes to the figure from which on some people are spoken to."""
    if one.parameter.key not in said.parameters:
        return False
    if said.over:
        return found >= Finding.ADOPTED
    reading = one.reading
    if reading is None:
        return False
    if said.start is None:
        return reading.is_detect and reading.number != 0
    return share_of(one.parameter, reading, said.start, said.unit, said.basis) >= 1


def share_of(
    parameter: Parameter, reading: Reading, figure: Decimal, unit: str, basis: str
) -> Decimal:
    """A reading as a share of a figure, by the worst of the bases that it may have.

    What is found without a figure that can be brought into the unit counts as just reaching it.
    """
    if not reading.is_detect:
        return Decimal(0)
    if reading.number is None:
        return Decimal(1)
    bases = (reading.basis,) if reading.basis else choices(parameter) or ("",)
    shares = [_share(parameter, reading, each, (figure, unit, basis)) for each in bases]
    return max(shares)


def _share(
    parameter: Parameter, reading: Reading, counted: str, line: tuple[Decimal, str, str]
) -> Decimal:
    figure, unit, basis = line
    try:
        got = convert(reading.number or Decimal(0), reading.unit, counted, unit, basis, parameter)
    except NoConversion:
        return Decimal(1)
    return got.number / figure
