"""A part can't be more than its whole: dissolved over total, calcium hardness over hardness."""

from collections.abc import Iterator, Sequence

from wellbook.water.chemistry.balance import equivalent, milliequivalents
from wellbook.water.chemistry.interval import Contents, bounds_of
from wellbook.water.plausibility.slips import Slip
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Check, Oddity
from wellbook.water.values.readings import Fraction, Kind
from wellbook.water.values.results import Result

# A part, its whole, and what one of the part makes of the whole (both in their usual units).
_PARTS = (
    ("nitrate", "nitrate_nitrite", 1.0),
    ("nitrite", "nitrate_nitrite", 1.0),
    ("ammonia", "kjeldahl_nitrogen", 1.0),
    ("kjeldahl_nitrogen", "total_nitrogen", 1.0),
    ("phosphate", "phosphorus", 1.0),
    ("hardness_calcium", "hardness", 1.0),
    ("hardness_magnesium", "hardness", 1.0),
    ("hardness_noncarbonate", "hardness", 1.0),
    ("bicarbonate", "alkalinity", 100.086 / 2 / 61.016),
    ("iron_ferrous", "iron", 1.0),
    ("chromium_vi", "chromium", 1.0),
    ("dissolved_organic_carbon", "total_organic_carbon", 1.0),
    ("chlorine_residual", "chlorine_total", 1.0),
    ("fecal_coliform", "total_coliform", 1.0),
    ("e_coli", "total_coliform", 1.0),
)
# Two figures of one water may differ by a tenth and more; common practice, no source.
_TOLERANCE = 1.2
_HARDNESS_OFF, _HARDNESS_LEAST = 0.1, 5.0  # relative, and mg/L as CaCO3
_GERMS = ("e_coli", "fecal_coliform")


def parts(results: Sequence[Result], catalogue: Catalogue, found: Contents) -> Iterator[Oddity]:
    """Parts over their whole in one sample; `found` is what it holds."""
    germs = tuple(_germs(results, catalogue))
    yield from germs
    yield from _dissolved(results, catalogue)
    for part, whole, factor in _PARTS:
        if part in found and whole in found and not (germs and part in _GERMS):
            yield from _over(results, catalogue, (part, whole), factor)
    yield from _hardness(results, catalogue, found)


def _over(
    results: Sequence[Result], catalogue: Catalogue, keys: tuple[str, str], factor: float
) -> Iterator[Oddity]:
    part, whole = (_largest(results, key, catalogue) for key in keys)
    if part is None or whole is None:
        return
    (small, least), (large, most) = part, whole
    if least[0] * factor > most[1] * _TOLERANCE:
        yield Oddity(
            Check.PART_OVER_WHOLE,
            {"part": _said(small, catalogue), "whole": _said(large, catalogue), "dissolved": False},
            results=(small.id, large.id),
        )


def _largest(
    results: Sequence[Result], key: str, catalogue: Catalogue
) -> tuple[Result, tuple[float, float]] | None:
    parameter = catalogue.parameters[key]
    known = [(r, bounds_of(r, parameter)) for r in results if r.parameter == key]
    found = [(r, (bounds.low, bounds.high)) for r, bounds in known if bounds]
    return max(found, key=lambda one: one[1], default=None)


def _dissolved(results: Sequence[Result], catalogue: Catalogue) -> Iterator[Oddity]:
    """Dissolved over total of the same parameter."""
    dissolved = Fraction.DISSOLVED
    for small in results:
        if small.reading.fraction != dissolved or small.parameter not in catalogue.parameters:
            continue
        parameter = catalogue.parameters[small.parameter]
        part = bounds_of(small, parameter)
        for large in results:
            if large.parameter != small.parameter or large.reading.fraction != Fraction.TOTAL:
                continue
            whole = bounds_of(large, parameter)
            if part and whole and part.low > whole.high * _TOLERANCE:
                yield Oddity(
                    Check.PART_OVER_WHOLE,
                    {
                        "part": _said(small, catalogue),
                        "whole": _said(large, catalogue),
                        "dissolved": True,
                    },
                    results=(small.id, large.id),
                )


def _germs(results: Sequence[Result], catalogue: Catalogue) -> Iterator[Oddity]:
    """E. coli is a coliform: it can't be present where coliforms are absent."""
    whole = [r for r in results if r.parameter == "total_coliform"]
    none = [r for r in whole if not _grew(r)]
    if not whole or len(none) < len(whole):
        return
    for result in results:
        if result.parameter in _GERMS and _grew(result):
            yield Oddity(
                Check.GERM_WITHOUT_COLIFORM,
                {
                    "germ": catalogue.parameters[result.parameter].name,
                    "found": result.reading.text,
                    "none": none[0].reading.text,
                },
                results=(result.id, none[0].id),
            )


def _grew(result: Result) -> bool:
    reading = result.reading
    counted = reading.kind is Kind.NUMBER and bool(reading.number)
    return counted or reading.kind in {Kind.PRESENT, Kind.ABOVE}


def _hardness(results: Sequence[Result], catalogue: Catalogue, found: Contents) -> Iterator[Oddity]:
    """Reported hardness against calcium and magnesium."""
    if not all(key in found and found[key].exact for key in ("hardness", "calcium", "magnesium")):
        return
    printed = found["hardness"].low
    sums = milliequivalents(("calcium", "magnesium"), found, catalogue)
    computed = sums.low * equivalent("hardness", catalogue)
    gap = abs(printed - computed)
    if gap <= max(_HARDNESS_LEAST, _HARDNESS_OFF * max(printed, computed)):
        return
    slip = _hardness_slip(printed / computed if computed else 0)
    yield Oddity(
        Check.HARDNESS_SUM,
        {"printed": printed, "computed": computed, "slip": slip},
        results=tuple(r.id for r in results if r.parameter in {"hardness", "calcium", "magnesium"}),
    )


def _hardness_slip(ratio: float) -> Slip | None:
    slips = (
        (1 / 17.118, Slip.HARDNESS_IN_GRAINS),
        (17.118, Slip.MG_FOR_GRAINS),
        (1 / 2.497, Slip.BOTH_AS_CACO3),
        (10.0, Slip.POINT),
        (0.1, Slip.POINT),
    )
    return next((slip for factor, slip in slips if 0.85 < ratio / factor < 1.18), None)  # noqa: PLR2004  a sixth either way


def _said(result: Result, catalogue: Catalogue) -> str:
    reading = result.reading
    printed = " ".join(filter(None, (reading.text, reading.unit, reading.basis)))
    return f"{catalogue.parameters[result.parameter].name} ({printed})"
