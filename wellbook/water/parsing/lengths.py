"""Lengths in the words of a driller's log: `185 ft`, `6 in steel to 42 ft`, `160 to 180 ft`.

1 ft is 0.3048 m and 1 in is 0.0254 m exactly (international yard and pound agreement of 1959).
"""

import re

_METRES = {
    "ft": 0.3048, "feet": 0.3048, "foot": 0.3048, "'": 0.3048, "’": 0.3048, "pies": 0.3048,
    "in": 0.0254, "inch": 0.0254, "inches": 0.0254, '"': 0.0254, "”": 0.0254,
    "m": 1.0, "metres": 1.0, "meters": 1.0, "metre": 1.0, "meter": 1.0, "metros": 1.0,
    "cm": 0.01, "mm": 0.001,
}  # fmt: skip
_UNITS = "|".join(sorted(map(re.escape, _METRES), key=len, reverse=True))
_NUMBER = r"\d+(?:\.\d+)?"
_LENGTH = re.compile(
    rf"(?P<first>{_NUMBER})(?:\s*(?:-|–|to|and|a)\s*(?P<second>{_NUMBER}))?\s*"
    rf"(?P<unit>{_UNITS})(?![a-z])",
    re.IGNORECASE,
)
_FEET_AND_INCHES = re.compile(
    rf"({_NUMBER})\s*(?:ft|feet|foot|'|’)\s*({_NUMBER})\s*(?:inches|inch|in|\"|”)(?![a-z])",
    re.IGNORECASE,
)
WIDEST = 1.5  # metres; what is less may be a diameter


def lengths(text: str) -> tuple[float, ...]:
    """Every length with a unit in a text, in metres and in order; none is guessed a unit."""
    text = _FEET_AND_INCHES.sub(lambda m: f"{float(m[1]) + float(m[2]) / 12} ft", text)
    found: list[float] = []
    for match in _LENGTH.finditer(text):
        metres = _METRES[match["unit"].lower()]
        found += [float(match[n]) * metres for n in ("first", "second") if match[n]]
    return tuple(found)


def depth(text: str) -> float | None:
    """The depth that a text tells: its longest length, in metres; None where it tells none."""
    return max(lengths(text), default=None)


def stretch_of(text: str) -> tuple[float, float] | None:
    """From where to where, in metres: the two longest lengths of a text that names two."""
    found = sorted(length for length in lengths(text) if length > 0)
    return (found[-2], found[-1]) if len(found) > 1 and found[-2] > WIDEST else None


def is_metric(text: str) -> bool:
    """Whether a text measures in metres."""
    units = [match["unit"].lower() for match in _LENGTH.finditer(text)]
    return bool(units) and all(
        unit in {"m", "cm", "mm"} or unit.startswith("met") for unit in units
    )
