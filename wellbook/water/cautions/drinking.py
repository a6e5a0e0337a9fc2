"""Whether boiling helps where bacteria were found, by everything else in the water.

The table: boiling fits where nothing else speaks against it. Nitrate or nitrite over, close or of
unknown basis, and any solvent, fuel or methane, leave other water only. Nitrate at half its limit
makes boiling a last resort. Slow harms (lead, arsenic, PFAS ...) put other water first and leave
the rest to the health department. For each person the strictest line of all findings counts.
"""

from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from enum import IntEnum

from wellbook.water.cautions.cautions import CHILD, INFANT, PREGNANCY, Cautions
from wellbook.water.cautions.findings import GERMS, Finding, Judged, reaches, share_of

_HALF = (Decimal(5), "mg/L", "as N")  # half of the usual 10 mg/L as N; our own line
_TURBID = (Decimal(5), "NTU", "")  # from which on it is seen; common practice, no source
_FRESH = timedelta(days=426)  # 14 months; an older nitrate tells nothing of today's
_BY_NITRATE = frozenset({INFANT, PREGNANCY})
_BY_SLOW_HARMS = frozenset({INFANT, PREGNANCY, CHILD})


class Boiling(IntEnum):
    """Whether boiled water may be drunk; the higher the stricter."""

    FITS = 0
    VENTED = 1
    LESSER = 2
    LAST = 3
    NO = 4


@dataclass(frozen=True, slots=True)
class Drinking:
    """What becomes of the advice to boil.

    Attributes:
        germs: Names of the bacteria.
        boiling: Whether grown-up people may drink boiled water.
        because: Names of what speaks against it.
        other_only: Of those who drink it the ones to whom boiled water is none.
        nitrate_unknown: Whether nitrate was never tested, or too long ago.
        is_turbid: Whether the water is cloudy.
    """

    germs: tuple[str, ...]
    boiling: Boiling
    because: tuple[str, ...]
    other_only: tuple[str, ...]
    nitrate_unknown: bool
    is_turbid: bool


def drinking(
    found: Mapping[Judged, Finding],
    cautions: Cautions,
    people: AbstractSet[str],
    today: date | None = None,
) -> Drinking | None:
    """Whether boiling helps; None where no bacteria were found and all could be told.

    Args:
        found: What each reading amounts to.
        cautions: The reference data.
        people: Of `PEOPLE` those who drink the water.
        today: The day, for the age of nitrate; None if it does not matter.
    """
    germs = tuple(
        one.parameter.name
        for one, sign in found.items()
        if one.parameter.key in GERMS and sign >= Finding.UNDECIDED
    )
    if not germs:
        return None
    strict = {one: _boiling(one, sign, cautions) for one, sign in found.items()}
    worst = max(strict.values())
    because = tuple(
        one.parameter.name
        for one, boiling in strict.items()
        if boiling is worst is not Boiling.FITS
    )
    unknown = not _is_known(found, today)
    other = {who for one, sign in found.items() for who in _other_only(one, sign, cautions)}
    if worst in {Boiling.LESSER, Boiling.LAST, Boiling.NO}:
        other |= _BY_SLOW_HARMS
    if unknown:
        other |= _BY_NITRATE
    return Drinking(
        germs,
        worst,
        tuple(dict.fromkeys(because)),
        tuple(who for who in people if who in other),
        unknown,
        any(_is_turbid(one, sign) for one, sign in found.items()),
    )


def _is_turbid(one: Judged, sign: Finding) -> bool:
    if one.parameter.key != "turbidity" or one.reading is None:
        return False
    return sign >= Finding.TASTE or share_of(one.parameter, one.reading, *_TURBID) >= 1


def _boiling(one: Judged, sign: Finding, cautions: Cautions) -> Boiling:
    caution = cautions.of.get(one.parameter.key)
    if caution is None or caution.boil in {"", "yes"}:
        return Boiling.FITS
    if caution.boil == "no":
        if sign >= Finding.NEAR or (caution.always and sign >= Finding.MET):
            return Boiling.NO
        is_half = one.reading is not None and share_of(one.parameter, one.reading, *_HALF) >= 1
        return Boiling.LAST if caution.key == "nitrate" and is_half else Boiling.FITS
    if caution.boil == "vented":
        return Boiling.VENTED if sign >= Finding.FOUND else Boiling.FITS
    return Boiling.LESSER if sign >= Finding.ADOPTED else Boiling.FITS


def _other_only(one: Judged, sign: Finding, cautions: Cautions) -> Iterable[str]:
    return (
        who
        for said in cautions.people
        if said.other_water and reaches(one, said, sign)
        for who in said.who
    )


def _is_known(found: Iterable[Judged], today: date | None) -> bool:
    """Whether nitrate was tested, and not too long ago."""
    days: Sequence[date | None] = [
        one.day for one in found if one.parameter.key in {"nitrate", "nitrate_nitrite"}
    ]
    if today is None:
        return bool(days)
    return any(day is None or today - day <= _FRESH for day in days)
