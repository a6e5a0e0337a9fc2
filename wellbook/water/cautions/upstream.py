"""What a finding before a tap means for that tap: a tap that was not tested is not a clean one."""

from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import timedelta

from wellbook.water.cautions.advice import Advice, CautionText
from wellbook.water.cautions.cautions import INFANT, PREGNANCY, Caution, Cautions
from wellbook.water.cautions.findings import GERMS, Finding, Judged, finding_by

# A result of the tap tells of it if it is no older than this before the finding.
_STILL_TELLS = timedelta(days=426)  # 14 months
_PARTS = frozenset({"nitrate", "nitrite"})
_SUMS = frozenset({"nitrate_nitrite", "nitrate_nitrite_ratio"})  # of these parts


@dataclass(frozen=True, slots=True)
class Before:
    """A raw point before a tap.

    Attributes:
        name: Its name.
        sample: Its latest readings and sums, each with all its judgements.
    """

    name: str
    sample: tuple[Judged, ...]


def behind(
    tap: Sequence[Judged],
    before: Iterable[Before],
    cautions: Cautions,
    people: AbstractSet[str] = frozenset(),
    *,
    is_treated: bool,
) -> tuple[Advice, ...]:
    """What findings of raw water ask for at a tap behind it.

    What is over a limit before the tap and was not tested at it holds for it. Bacteria come and go:
    only treatment, and a test of the same day or later, tell a tap from the water before it.

    Args:
        tap: Latest readings and sums of the tap.
        before: The raw points before it.
        cautions: The reference data.
        people: Of `PEOPLE` those who drink the water.
        is_treated: Whether treatment lies between.
    """
    milder_first = sorted(tap, key=lambda one: finding_by(one, cautions))
    here = {one.parameter.key: one for one in milder_first}
    said: list[Advice] = []
    for point in before:
        found = _over(point.sample, cautions)
        shown = [one for one in found if _tells(here.get(one.parameter.key), one, is_treated)]
        clean = [
            one for one in shown if finding_by(here[one.parameter.key], cautions) <= Finding.TASTE
        ]
        groups = (
            ("untested", [one for one in found if one not in shown], ()),
            ("bacteria", [one for one in clean if one.parameter.key in GERMS], ()),
            ("nitrate", *_for_babies(clean, people)),
        )
        said += [
            _advice(name, point, ones, found, cautions, who) for name, ones, who in groups if ones
        ]
    return tuple(said)


def _over(sample: Iterable[Judged], cautions: Cautions) -> dict[Judged, Finding]:
    """What may be over a limit; nitrate alone tells of its sum with nitrite, which it is over."""
    signs = {one: finding_by(one, cautions) for one in sample}
    over = {one: sign for one, sign in signs.items() if sign > Finding.TASTE}
    is_told = any(one.parameter.key in _PARTS for one in over)
    return {one: sign for one, sign in over.items() if not (is_told and one.parameter.key in _SUMS)}


def _tells(here: Judged | None, raw: Judged, is_treated: bool) -> bool:  # noqa: FBT001
    """Whether a result of the tap says how it stands beside the finding before it."""
    if here is None or here.day is None or raw.day is None:
        return False
    if raw.parameter.key in GERMS:
        return is_treated and here.day >= raw.day
    return here.day >= raw.day - _STILL_TELLS


def _for_babies(
    clean: Iterable[Judged], people: AbstractSet[str]
) -> tuple[list[Judged], tuple[str, ...]]:
    who = tuple(one for one in (INFANT, PREGNANCY) if one in people)
    return [one for one in clean if who and one.parameter.key in _PARTS | _SUMS], who


def _advice(
    name: str,
    point: Before,
    ones: Sequence[Judged],
    found: dict[Judged, Finding],
    cautions: Cautions,
    who: tuple[str, ...],
) -> Advice:
    names = tuple(dict.fromkeys(one.parameter.name for one in ones))
    text, source = cautions.behind[name]
    kept = [cautions.of.get(one.parameter.key, Caution("")) for one in ones]
    return Advice(
        names,
        (CautionText(text, because=names, people=who, where=point.name),),
        urgent=bool(who) or any(caution.urgent for caution in kept),
        source=source,
        people=who,
        finding=max(found[one] for one in ones),
    )
