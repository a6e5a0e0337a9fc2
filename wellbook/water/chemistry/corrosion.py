"""Whether water tends to lay down scale or to eat at pipes: formulas, each from its source.

All say something of calcium carbonate or of salts, none of them foretells lead or copper at the
tap; a first-draw test does. Concentrations in mg/L, hardness and alkalinity as CaCO3, °C.
"""

from math import log10, sqrt

_KELVIN = 273.15
_CACO3 = 100.086  # g/mol
_TDS_PER_IONIC_STRENGTH = 40_000


def saturation_ph(
    temperature: float, tds: float, calcium_hardness: float, alkalinity: float
) -> float:
    """The pH at which water neither lays down nor dissolves calcite (Standard Methods 2330 B).

    Constants of Plummer and Busenberg (1982), activity after Davies, ionic strength from
    dissolved solids. Good to about 0.06 against a full speciation from 5 to 60 °C and below an
    ionic strength of 0.03.

    Raises:
        ValueError: Calcium, alkalinity or dissolved solids are not above zero.
    """
    kelvin = temperature + _KELVIN
    k2 = (
        107.8871
        + 0.03252849 * kelvin
        - 5151.79 / kelvin
        - 38.92561 * log10(kelvin)
        + 563713.9 / kelvin**2
    )
    ks = 171.9065 + 0.077993 * kelvin - 2839.319 / kelvin - 71.595 * log10(kelvin)
    strength = tds / _TDS_PER_IONIC_STRENGTH
    dielectric = 60954 / (kelvin + 116) - 68.937
    root = sqrt(strength)
    activity = 1.82e6 / sqrt(dielectric * kelvin) ** 3 * (root / (1 + root) - 0.3 * strength)
    calcium = -log10(calcium_hardness / _CACO3 / 1000)
    base = -log10(alkalinity * 2 / _CACO3 / 1000)
    return k2 - ks + calcium + base + 5 * activity


def short_saturation_ph(
    temperature: float, tds: float, calcium_hardness: float, alkalinity: float
) -> float:
    """The same by the short formula of the handbooks, for comparison with older reports.

    At well temperatures it puts the index 0.1 to 0.3 too low (Roberge, Corrosion Engineering:
    Principles and Practice, section 8.7, prints the formula).
    """
    solids = (log10(tds) - 1) / 10
    heat = -13.12 * log10(temperature + 273) + 34.55
    return 9.3 + solids + heat - (log10(calcium_hardness) - 0.4) - log10(alkalinity)


def langelier(ph: float, saturation: float) -> float:
    """Langelier index: pH less the pH of saturation; above zero tends to scale."""
    return ph - saturation


def ryznar(ph: float, saturation: float) -> float:
    """Ryznar index (1944): twice the pH of saturation less pH."""
    return 2 * saturation - ph


def aggressive_index(ph: float, calcium_hardness: float, alkalinity: float) -> float:
    """Aggressive index of AWWA C400 for asbestos-cement pipe."""
    return ph + log10(calcium_hardness * alkalinity)
