"""Names, classes, cautions and sources of the indices; `indices` works them out."""

from dataclasses import dataclass

from wellbook.support.translation import mark

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


_NOT_METALS = mark(
    "It tells of calcium carbonate, not of lead or copper: test a first draw for those."
)
_USGS = mark("USGS SIR 2016-5092 (classes from memory)")
_SUMS = "Standard Methods 1030 E"

INDEX_KINDS = {
    "hardness": IndexKind(
        mark("Hardness from calcium and magnesium"), "mg/L as CaCO3", "Standard Methods 2340 B"
    ),
    "carbonate_hardness": IndexKind(
        mark("Carbonate hardness"),
        "mg/L as CaCO3",
        "Standard Methods 2340",
        mark("The part that falls out as scale when water is heated."),
    ),
    "noncarbonate_hardness": IndexKind(
        mark("Non-carbonate hardness"), "mg/L as CaCO3", "Standard Methods 2340"
    ),
    "charge_balance": IndexKind(
        mark("Charge balance"),
        "%",
        _SUMS,
        mark("Difference of cations and anions over their sum; some norms take half the sum."),
    ),
    "solids_sum": IndexKind(
        mark("Dissolved solids, sum"),
        "mg/L",
        _SUMS,
        mark("Six tenths of the alkalinity and nitrate as NO3 are counted in."),
    ),
    "solids_ratio": IndexKind(mark("Dissolved solids, measured over sum"), "", _SUMS),
    "solids_to_conductivity": IndexKind(
        mark("Dissolved solids over conductivity"),
        "mg/L per µS/cm",
        mark("Hem, USGS Water-Supply Paper 2254 (from memory)"),
        mark("Mostly 0.55 to 0.75."),
    ),
    "ionic_strength": IndexKind(mark("Ionic strength"), "mol/L", "Lewis and Randall 1921"),
    "langelier": IndexKind(
        mark("Langelier index"),
        "",
        mark("Standard Methods 2330 B; USGS SIR 2016-5092 (classes from memory)"),
        _NOT_METALS,
        (
            (-0.5, mark("may eat at pipes")),
            (0.5, mark("neither clearly eats at pipes nor lays down scale")),
            (TOP, mark("tends to lay down scale")),
        ),
    ),
    "langelier_short": IndexKind(
        mark("Langelier index, short formula"),
        "",
        "Roberge, Corrosion Engineering: Principles and Practice, section 8.7",
        mark("For comparison with older reports: 0.1 to 0.3 too low at well temperatures."),
    ),
    "ryznar": IndexKind(
        mark("Ryznar index"),
        "",
        mark("Ryznar 1944; classes after Roberge"),
        _NOT_METALS,
        (
            (6.0, mark("tends to lay down scale")),
            (7.0, mark("little scale, little corrosion")),
            (8.0, mark("lays down no protecting film")),
            (TOP, mark("eats at pipes")),
        ),
    ),
    "aggressive_index": IndexKind(
        mark("Aggressive index"),
        "",
        mark("AWWA C400 (classes from memory)"),
        mark("Made for asbestos-cement pipe."),
        (
            (10.0, mark("highly aggressive")),
            (12.0, mark("moderately aggressive")),
            (TOP, mark("not aggressive")),
        ),
    ),
    "chloride_sulfate": IndexKind(
        mark("Chloride-to-sulfate mass ratio"),
        "",
        _USGS,
        mark(
            "It tells of lead where copper pipe meets lead solder or brass; a first draw decides."
        ),
    ),
    "larson": IndexKind(
        mark("Larson-Skold index"),
        "",
        mark("Larson and Skold 1958 (from memory)"),
        mark("Made for steel in lake water."),
        (
            (0.8, mark("salts hardly disturb a protecting film")),
            (1.2, mark("salts may disturb a protecting film")),
            (TOP, mark("salts speed up corrosion")),
        ),
    ),
    "sodium_adsorption": IndexKind(
        mark("Sodium adsorption ratio"),
        "",
        mark("US Salinity Laboratory, Handbook 60 (from memory)"),
        mark("For soil and plants that are watered, not for drinking."),
    ),
    "sodium_percent": IndexKind(
        mark("Sodium share of the main cations"),
        "%",
        "USGS parameter 00932",
        mark("By charge, in meq/L."),
    ),
    "sodium_chloride": IndexKind(
        mark("Sodium to chloride, molar"),
        "",
        mark("common practice, no source"),
        mark(
            "About 1 fits dissolved salt; soil lowers it, a softener raises it. A hint, no proof."
        ),
    ),
    "chloride_bromide": IndexKind(
        mark("Chloride to bromide, molar"),
        "",
        mark("common practice, no source"),
        mark("About 650 in sea water, more in rock and road salt, less in rain. A hint, no proof."),
    ),
}
