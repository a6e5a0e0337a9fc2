"""Names, classes, cautions and sources of the indices; `indices` works them out."""

from dataclasses import dataclass

TOP = float("inf")


@dataclass(frozen=True, slots=True)
class IndexKind:
    """How an index is shown.

    Attributes:
        name: The trade's name.
        unit: Unit, or empty for a pure number.
        source: Where formula and classes come from.
        caution: What it does not tell or was made for, or empty.
        classes: Upper ends of the classes in use with their words, in rising order.
    """

    name: str
    unit: str
    source: str
    caution: str = ""
    classes: tuple[tuple[float, str], ...] = ()


_NOT_METALS = "It tells of calcium carbonate, not of lead or copper: test a first draw for those."
_USGS = "USGS SIR 2016-5092 (classes from memory)"
_SUMS = "Standard Methods 1030 E"

INDEX_KINDS = {
    "hardness": IndexKind(
        "Hardness from calcium and magnesium", "mg/L as CaCO3", "Standard Methods 2340 B"
    ),
    "carbonate_hardness": IndexKind(
        "Carbonate hardness",
        "mg/L as CaCO3",
        "Standard Methods 2340",
        "The part that falls out as scale when water is heated.",
    ),
    "noncarbonate_hardness": IndexKind(
        "Non-carbonate hardness", "mg/L as CaCO3", "Standard Methods 2340"
    ),
    "charge_balance": IndexKind(
        "Charge balance",
        "%",
        _SUMS,
        "Difference of cations and anions over their sum; some norms take half the sum.",
    ),
    "solids_sum": IndexKind(
        "Dissolved solids, sum",
        "mg/L",
        _SUMS,
        "Six tenths of the alkalinity and nitrate as NO3 are counted in.",
    ),
    "solids_ratio": IndexKind("Dissolved solids, measured over sum", "", _SUMS),
    "solids_to_conductivity": IndexKind(
        "Dissolved solids over conductivity",
        "mg/L per µS/cm",
        "Hem, USGS Water-Supply Paper 2254 (from memory)",
        "Mostly 0.55 to 0.75.",
    ),
    "ionic_strength": IndexKind("Ionic strength", "mol/L", "Lewis and Randall 1921"),
    "langelier": IndexKind(
        "Langelier index",
        "",
        f"Standard Methods 2330 B; {_USGS}",
        _NOT_METALS,
        (
            (-0.5, "may eat at pipes"),
            (0.5, "neither clearly eats at pipes nor lays down scale"),
            (TOP, "tends to lay down scale"),
        ),
    ),
    "langelier_short": IndexKind(
        "Langelier index, short formula",
        "",
        "Roberge, Corrosion Engineering: Principles and Practice, section 8.7",
        "For comparison with older reports: 0.1 to 0.3 too low at well temperatures.",
    ),
    "ryznar": IndexKind(
        "Ryznar index",
        "",
        "Ryznar 1944; classes after Roberge",
        _NOT_METALS,
        (
            (6.0, "tends to lay down scale"),
            (7.0, "little scale, little corrosion"),
            (8.0, "lays down no protecting film"),
            (TOP, "eats at pipes"),
        ),
    ),
    "aggressive_index": IndexKind(
        "Aggressive index",
        "",
        "AWWA C400 (classes from memory)",
        "Made for asbestos-cement pipe.",
        ((10.0, "highly aggressive"), (12.0, "moderately aggressive"), (TOP, "not aggressive")),
    ),
    "chloride_sulfate": IndexKind(
        "Chloride-to-sulfate mass ratio",
        "",
        _USGS,
        "It tells of lead where copper pipe meets lead solder or brass; a first draw decides.",
    ),
    "larson": IndexKind(
        "Larson-Skold index",
        "",
        "Larson and Skold 1958 (from memory)",
        "Made for steel in lake water.",
        (
            (0.8, "salts hardly disturb a protecting film"),
            (1.2, "salts may disturb a protecting film"),
            (TOP, "salts speed up corrosion"),
        ),
    ),
    "sodium_adsorption": IndexKind(
        "Sodium adsorption ratio",
        "",
        "US Salinity Laboratory, Handbook 60 (from memory)",
        "For soil and plants that are watered, not for drinking.",
    ),
    "sodium_percent": IndexKind(
        "Sodium share of the main cations", "%", "USGS parameter 00932", "By charge, in meq/L."
    ),
    "sodium_chloride": IndexKind(
        "Sodium to chloride, molar",
        "",
        "common practice, no source",
        "About 1 fits dissolved salt; soil lowers it, a softener raises it. A hint, no proof.",
    ),
    "chloride_bromide": IndexKind(
        "Chloride to bromide, molar",
        "",
        "common practice, no source",
        "About 650 in sea water, more in rock and road salt, less in rain. A hint, no proof.",
    ),
}
