"""A figure over a limit opens a case; it is confirmed, watched, treated, and closes by a rule.

The rows of `exceedances.csv` say for each parameter how soon a second sample is wanted and where,
how often it is tested while it stands, and how many clean results close it.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from enum import StrEnum
from pathlib import Path
from typing import Literal

from wellbook.support.csv_rows import IntOrZero, read_rows
from wellbook.water.cautions.findings import share_of
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import ADVISED_KINDS
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.values.seasons import add_months
from wellbook.water.verdicts.judge import judge_all
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.sums import judge_sums

LONG_RUN, LONG_MONTHS = 4, 24  # four results below the limit over two years close any case
_MANY = 4  # after so many results the later interval holds
_FINDINGS = frozenset({Verdict.OUTSIDE, Verdict.ADOPTED})
FLUSHED, FIRST_DRAW = "flushed", "first draw"


class Step(StrEnum):
    """What comes next in a case."""

    CONFIRM = "confirm it"
    PARTNER = "the flushed sample beside the first draw"
    WATCH = "watch it"
    PROVE = "prove the treatment"
    CLEAR = "show that it lasts"


@dataclass(frozen=True, slots=True)
class Exceedance:
    """What a figure over a limit asks for, by group of parameters.

    Attributes:
        key: Stable key.
        name: Plain name.
        parameters: Keys of its parameters, sums among them.
        companions: What is usually tested with the second sample.
        opens: `health`, or `any` where a level of taste, looks or operation opens it, too.
        side: Where a finding lies: `over` a limit, or `outside` limits that also have a lower end.
        start: Figure that opens it without a limit; None for any detection, if `start_people`.
        unit: Unit of that figure.
        basis: Basis of that figure.
        start_people: Whom that figure is about; with a figure and nobody named, everybody.
        confirm_days: Days until the second sample.
        confirm_days_people: The same where `near_people` drink the water; 0 if no shorter.
        confirm_taps: `raw`, `drinking`, `first_draw`, `flushed`.
        watch_months: Months between tests while it stands, for the first four.
        then_months: The same from then on.
        treat_months: Months between tests once a unit against it is in use, for the first four.
        treat_then_months: The same from then on.
        treat_taps: The same with `between` for the taps between two units.
        near_share: Share of the limit from which on it is tested more often; None for never.
        near_months: How often; 0 for as usual.
        near_people: Whom it concerns more.
        near_people_months: How often where they drink the water.
        clean_n: How many results in a row close it.
        clean_share: Below which share of the limit they lie.
        clean_months: Months from the first to the last of them, at least.
        draw: How they have to be drawn; empty if it does not matter.
        do: What else is to be done.
        source: Who says so.
    """

    key: str
    name: str
    parameters: tuple[str, ...]
    companions: tuple[str, ...]
    opens: Literal["health", "any"]
    side: Literal["over", "outside"]
    start: Decimal | None
    unit: str
    basis: str
    start_people: frozenset[str]
    confirm_days: IntOrZero
    confirm_days_people: IntOrZero
    confirm_taps: tuple[str, ...]
    watch_months: IntOrZero
    then_months: IntOrZero
    treat_months: IntOrZero
    treat_then_months: IntOrZero
    treat_taps: tuple[str, ...]
    near_share: Decimal | None
    near_months: IntOrZero
    near_people: frozenset[str]
    near_people_months: IntOrZero
    clean_n: IntOrZero
    clean_share: Decimal
    clean_months: IntOrZero
    draw: str
    do: str
    source: str


@dataclass(frozen=True, slots=True)
class SampleFinding:
    """What one day's sample at a point says of a group.

    Attributes:
        day: Day of the sample.
        found: Keys of the parameters that are over, or may be.
        shares: Worst figure of each parameter of which something can be said, as a share of its
            limit, by key; also of the sums that are over.
        told: Keys of the parameters and sums of which it tells whether they are over.
        sums: Keys of sums that are over though none of their parts is, and that parts can tell.
        first_draw: Whether any result was drawn first, or it is not known how.
        flushed: Whether any result was flushed.
    """

    day: date
    found: tuple[str, ...]
    shares: Mapping[str, Decimal]
    told: frozenset[str]
    sums: tuple[str, ...]
    first_draw: bool
    flushed: bool

    @property
    def share(self) -> Decimal | None:
        """Worst figure as a share of its limit; None if nothing can be said of any."""
        return max(self.shares.values(), default=None)


@dataclass(frozen=True, slots=True)
class ExceedanceCase:
    """A figure over a limit and what followed.

    Attributes:
        row: What it asks for.
        opened: Day of the sample that opened it.
        found: Keys of all parameters that were over.
        findings: Days of the samples that were over.
        looks: All samples from the first finding on.
        closed: Day of the sample that closed it; None while it is open.
    """

    row: Exceedance
    opened: date
    found: tuple[str, ...]
    findings: tuple[date, ...]
    looks: tuple[SampleFinding, ...]
    closed: date | None = None

    @property
    def telling(self) -> tuple[SampleFinding, ...]:
        """The samples with a finding, and those that tell of all that was found so far."""
        wanted = {*self.found, *(key for look in self.looks for key in look.sums)}
        return tuple(look for look in self.looks if look.found or wanted <= look.told)


def read_exceedances(path: Path) -> tuple[Exceedance, ...]:
    """Read `exceedances.csv`.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A row makes no sense; the text names file, row and column.
    """
    return tuple(read_rows(path, Exceedance))


def looks(
    row: Exceedance,
    record: PointRecord,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
    people: AbstractSet[str] = frozenset(),
) -> tuple[SampleFinding, ...]:
    """What each day's samples at a point say of a group, by the limits of today, in order of time.

    Args:
        row: The group.
        record: Every result at the point.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day of the limits.
        people: Who drinks the water.
    """
    days: dict[date, list[Result]] = {}
    for key in row.parameters:
        for result in record.history(key):
            days.setdefault(result.collected.day, []).append(result)
    return tuple(
        _look(row, day, days[day], record, (catalogue, sets, today, people)) for day in sorted(days)
    )


_Yardstick = tuple[Catalogue, Sequence[str], date, AbstractSet[str]]


def _look(
    row: Exceedance, day: date, results: Sequence[Result], record: PointRecord, by: _Yardstick
) -> SampleFinding:
    catalogue, sets, today, _unused = by
    found: dict[str, None] = {}
    shares: dict[str, Decimal] = {}
    for result in results:
        judged = judge_all(
            result, catalogue, sets, today, beside=record.samples.get(result.sample, ())
        )
        is_over, share = _weighed(row, result, judged, by)
        if is_over:
            found[result.parameter] = None
        if share is not None:
            shares[result.parameter] = max(share, shares.get(result.parameter, share))
    told = {*shares, *_parts_of(shares, catalogue)}
    single, sums = frozenset(found), list[str]()
    samples = {result.sample for result in results}
    whole = (result for number in samples for result in record.samples.get(number, ()))
    for added, judgement in judge_sums(whole, catalogue, sets, today, row.parameters):
        if judgement.verdict in _FINDINGS:
            keys = [part.parameter for part in added.parts if part.low > 0]
            found |= dict.fromkeys(key for key in keys if key in row.parameters)
            shares[added.rule.key] = Decimal(2)
            if added.rule.whole and not single & set(keys):
                sums.append(added.rule.key)
        if judgement.verdict is not Verdict.UNDECIDABLE:
            told.add(added.rule.key)
    draws = {result.draw for result in results if result.reading.kind is not Kind.NONE}
    return SampleFinding(
        day,
        tuple(found),
        shares,
        frozenset(told),
        tuple(sums),
        first_draw=bool(draws - {FLUSHED}),
        flushed=FLUSHED in draws,
    )


def _parts_of(keys: Iterable[str], catalogue: Catalogue) -> Iterator[str]:
    """What a lab that reported a sum told of its parts: none of them is more."""
    wanted = frozenset(keys)
    for rule in catalogue.sums:
        if rule.key in wanted:
            yield from (term.parameter for term in rule.members)


def _weighed(
    row: Exceedance, result: Result, judged: Iterable[Judgement], by: _Yardstick
) -> tuple[bool, Decimal | None]:
    """Whether a result is a finding, and its share of the limit; None where it says nothing."""
    reading = result.reading
    if reading.kind in {Kind.NONE, Kind.TEXT} or Flag.REJECTED in reading.flags:
        return False, None
    shares: list[Decimal | None] = []
    is_over = False
    for judgement in judged:
        is_meant = (
            row.opens == "any" or judgement.limit is None or (judgement.limit.kind in ADVISED_KINDS)
        )
        if not is_meant:
            continue
        over, share = _by_limit(judgement, reading)
        is_over, shares = is_over or over, [*shares, share]
    reach = _by_start(row, result, by)
    if reach is not None:
        is_over, shares = is_over or reach >= 1, [*shares, reach]
    known = [share for share in shares if share is not None]
    says_nothing = len(known) < len(shares) and not is_over
    if not shares and not reading.is_detect:
        known = [Decimal(0)]
    return is_over, None if says_nothing else max(known, default=Decimal(0))


def _by_limit(judgement: Judgement, reading: Reading) -> tuple[bool, Decimal | None]:
    limit, value = judgement.limit, judgement.value
    high = limit.high if limit else None
    share = value / high if value is not None and high else None
    if judgement.verdict in _FINDINGS:
        return True, share if share is not None and share > 1 else Decimal(2)
    if judgement.verdict is Verdict.UNDECIDABLE:
        is_open = share is None or share > 1 or reading.kind is Kind.ABOVE
        may_be_over = reading.is_detect and is_open
        return may_be_over, Decimal(2) if may_be_over else None
    if judgement.verdict is Verdict.UNDETECTED:
        return False, Decimal(0)
    return False, share if share is not None else Decimal(0)


def _by_start(row: Exceedance, result: Result, by: _Yardstick) -> Decimal | None:
    """The result as a share of the figure that opens a case without a limit; None without one."""
    catalogue, _sets, _today, people = by
    if not (row.start_people & people if row.start_people else row.start is not None):
        return None
    reading = result.reading
    if row.start is None:
        return Decimal(1 if reading.is_detect and reading.number != 0 else 0)
    parameter = catalogue.parameters[result.parameter]
    if parameter.key != row.parameters[0]:
        return None  # the figure is that of the first
    return share_of(parameter, reading, row.start, row.unit, row.basis)


def exceedance_cases(row: Exceedance, seen: Sequence[SampleFinding]) -> tuple[ExceedanceCase, ...]:
    """Every case of a group at one point in order of time; only the last can be open."""
    done: list[ExceedanceCase] = []
    case: ExceedanceCase | None = None
    for look in seen:
        if case is None and not look.found:
            continue
        if case is None:
            case = ExceedanceCase(row, look.day, look.found, (look.day,), (look,))
            continue
        case = replace(
            case,
            found=tuple(dict.fromkeys((*case.found, *look.found))),
            findings=(*case.findings, look.day) if look.found else case.findings,
            looks=(*case.looks, look),
        )
        if _is_closed(case):
            done.append(replace(case, closed=look.day))
            case = None
    return (*done, *filter(None, [case]))


def clean(case: ExceedanceCase, share: Decimal) -> tuple[date, ...]:
    """Days of the samples in a row, up to the last one, that lie below a share of the limit.

    A sample counts if it tells of everything that was found.
    """
    run: list[date] = []
    telling = case.telling
    for look in reversed(case.looks):  # a long case has few of them, at its end
        if look.found:
            break
        if case.row.draw and not look.first_draw:
            continue
        if look.share is None:
            continue  # it says nothing, neither way
        if look.share >= share:
            break
        if look in telling:
            run.append(look.day)
    return tuple(reversed(run))


def _is_closed(case: ExceedanceCase) -> bool:
    row = case.row
    rules = (
        (row.clean_n, row.clean_share, row.clean_months),
        (max(LONG_RUN, row.clean_n), max(Decimal(1), row.clean_share), LONG_MONTHS),
    )
    for n, share, months in rules:
        run = clean(case, share)
        if len(run) >= n and run[-1] >= add_months(run[0], months):
            return True
    return False


def step(case: ExceedanceCase, treated_since: date | None) -> Step:
    """What comes next in an open case.

    Args:
        case: The case.
        treated_since: First day of a unit against it that is in use; None without one.
    """
    later = [look for look in case.telling if look.day > case.opened]
    if not later:
        return Step.CONFIRM
    if FLUSHED in case.row.confirm_taps and not any(look.flushed for look in case.looks):
        return Step.PARTNER
    if treated_since is not None:
        return Step.PROVE
    return Step.CLEAR if clean(case, Decimal(1)) else Step.WATCH


def next_day(case: ExceedanceCase, now: Step, last: date, *, for_people: bool) -> date:
    """When the next sample of an open case is wanted, after a last one at the tap."""
    row = case.row
    if now in {Step.CONFIRM, Step.PARTNER}:
        days = (
            row.confirm_days_people if for_people and row.confirm_days_people else row.confirm_days
        )
        return date.fromordinal(case.opened.toordinal() + days)
    first, then = (
        (row.treat_months, row.treat_then_months)
        if now is Step.PROVE
        else (row.watch_months, row.then_months)
    )
    return add_months(last, first if len(case.telling) <= _MANY else then)
