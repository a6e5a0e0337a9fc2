"""Names, classes, cautions and sources of the indices; `indices` works them out."""

from dataclasses import dataclass

from wellbook.support.translation import N_

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


_NOT_METALS = N_(
    "It tells of calcium carbonate, not of lead or copper: test a first draw for those."
)
_USGS = N_("USGS SIR 2016-5092 (classes from memory)")
_SUMS = "Standard Methods 1030 E"

INDEX_KINDS = {
    "hardness": IndexKind(
        N_("Hardness from calcium and magnesium"), "mg/L as CaCO3", "Standard Methods 2340 B"
    ),
    "carbonate_hardness": IndexKind(
        N_("Carbonate hardness"),
        "mg/L as CaCO3",
        "Standard Methods 2340",
        N_("The part that falls out as scale when water is heated."),
    ),
    "noncarbonate_hardness": IndexKind(
        N_("Non-carbonate hardness"), "mg/L as CaCO3", "Standard Methods 2340"
    ),
    "charge_balance": IndexKind(
        N_("Charge balance"),
        "%",
        _SUMS,
        N_("Difference of cations and anions over their sum; some norms take half the sum."),
    ),
    "solids_sum": IndexKind(
        N_("Dissolved solids, sum"),
        "mg/L",
        _SUMS,
        N_("Six tenths of the alkalinity and nitrate as NO3 are counted in."),
    ),
    "solids_ratio": IndexKind(N_("Dissolved solids, measured over sum"), "", _SUMS),
    "solids_to_conductivity": IndexKind(
        N_("Dissolved solids over conductivity"),
        "mg/L per µS/cm",
        N_("Hem, USGS Water-Supply Paper 2254 (from memory)"),
        N_("Mostly 0.55 to 0.75."),
    ),
    "ionic_strength": IndexKind(N_("Ionic strength"), "mol/L", "Lewis and Randall 1921"),
    "langelier": IndexKind(
        N_("Langelier index"),
        "",
        N_("Standard Methods 2330 B; USGS SIR 2016-5092 (classes from memory)"),
        _NOT_METALS,
        (
            (-0.5, N_("may eat at pipes")),
            (0.5, N_("neither clearly eats at pipes nor lays down scale")),
            (TOP, N_("tends to lay down scale")),
        ),
    ),
    "langelier_short": IndexKind(
        N_("Langelier index, short formula"),
        "",
        "Roberge, Corrosion Engineering: Principles and Practice, section 8.7",
        N_("For comparison with older reports: 0.1 to 0.3 too low at well temperatures."),
    ),
    "ryznar": IndexKind(
        N_("Ryznar index"),
        "",
        N_("Ryznar 1944; classes after Roberge"),
        _NOT_METALS,
        (
            (6.0, N_("tends to lay down scale")),
            (7.0, N_("little scale, little corrosion")),
            (8.0, N_("lays down no protecting film")),
            (TOP, N_("eats at pipes")),
        ),
    ),
    "aggressive_index": IndexKind(
        N_("Aggressive index"),
        "",
        N_("AWWA C400 (classes from memory)"),
        N_("Made for asbestos-cement pipe."),
        (
            (10.0, N_("highly aggressive")),
            (12.0, N_("moderately aggressive")),
            (TOP, N_("not aggressive")),
        ),
    ),
    "chloride_sulfate": IndexKind(
        N_("Chloride-to-sulfate mass ratio"),
        "",
        _USGS,
        N_("It tells of lead where copper pipe meets lead solder or brass; a first draw decides."),
    ),
    "larson": IndexKind(
        N_("Larson-Skold index"),
        "",
        N_("Larson and Skold 1958 (from memory)"),
        N_("Made for steel in lake water."),
        (
            (0.8, N_("salts hardly disturb a protecting film")),
            (1.2, N_("salts may disturb a protecting film")),
            (TOP, N_("salts speed up corrosion")),
        ),
    ),
    "sodium_adsorption": IndexKind(
        N_("Sodium adsorption ratio"),
        "",
        N_("US Salinity Laboratory, Handbook 60 (from memory)"),
        N_("For soil and plants that are watered, not for drinking."),
    ),
    "sodium_percent": IndexKind(
        N_("Sodium share of the main cations"),
        "%",
        "USGS parameter 00932",
        N_("By charge, in meq/L."),
    ),
    "sodium_chloride": IndexKind(
        N_("Sodium to chloride, molar"),
        "",
        N_("common practice, no source"),
        N_("About 1 fits dissolved salt; soil lowers it, a softener raises it. A hint, no proof."),
    ),
    "chloride_bromide": IndexKind(
        N_("Chloride to bromide, molar"),
        "",
        N_("common practice, no source"),
        N_("About 650 in sea water, more in rock and road salt, less in rain. A hint, no proof."),
    ),
}
