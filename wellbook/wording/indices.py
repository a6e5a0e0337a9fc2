"""Names, classes, cautions and sources of the indices, in words."""

from dataclasses import dataclass

from wellbook.support.translation import N_, _
from wellbook.water.chemistry.indices import Index
from wellbook.wording.facts import bounds


@dataclass(frozen=True, slots=True)
class _Kind:
    """How an index is said; each text is to be said.

    Attributes:
        name: The trade's name.
        source: Where formula and classes come from.
        caution: What it does not tell or was made for, or empty.
        classes: The words of the classes in use, in rising order.
    """

    name: str
    source: str
    caution: str = ""
    classes: tuple[str, ...] = ()


_NOT_METALS = N_(
    "It tells of calcium carbonate, not of lead or copper: test a first draw for those."
)
_USGS = N_("USGS SIR 2016-5092 (classes from memory)")
_SUMS = "Standard Methods 1030 E"

_KINDS = {
    "hardness": _Kind(N_("Hardness from calcium and magnesium"), "Standard Methods 2340 B"),
    "carbonate_hardness": _Kind(
        N_("Carbonate hardness"),
        "Standard Methods 2340",
        N_("The part that falls out as scale when water is heated."),
    ),
    "noncarbonate_hardness": _Kind(N_("Non-carbonate hardness"), "Standard Methods 2340"),
    "charge_balance": _Kind(
        N_("Charge balance"),
        _SUMS,
        N_("Difference of cations and anions over their sum; some norms take half the sum."),
    ),
    "solids_sum": _Kind(
        N_("Dissolved solids, sum"),
        _SUMS,
        N_("Six tenths of the alkalinity and nitrate as NO3 are counted in."),
    ),
    "solids_ratio": _Kind(N_("Dissolved solids, measured over sum"), _SUMS),
    "solids_to_conductivity": _Kind(
        N_("Dissolved solids over conductivity"),
        N_("Hem, USGS Water-Supply Paper 2254 (from memory)"),
        N_("Mostly 0.55 to 0.75."),
    ),
    "ionic_strength": _Kind(N_("Ionic strength"), "Lewis and Randall 1921"),
    "langelier": _Kind(
        N_("Langelier index"),
        N_("Standard Methods 2330 B; USGS SIR 2016-5092 (classes from memory)"),
        _NOT_METALS,
        (
            N_("may eat at pipes"),
            N_("neither clearly eats at pipes nor lays down scale"),
            N_("tends to lay down scale"),
        ),
    ),
    "langelier_short": _Kind(
        N_("Langelier index, short formula"),
        "Roberge, Corrosion Engineering: Principles and Practice, section 8.7",
        N_("For comparison with older reports: 0.1 to 0.3 too low at well temperatures."),
    ),
    "ryznar": _Kind(
        N_("Ryznar index"),
        N_("Ryznar 1944; classes after Roberge"),
        _NOT_METALS,
        (
            N_("tends to lay down scale"),
            N_("little scale, little corrosion"),
            N_("lays down no protecting film"),
            N_("eats at pipes"),
        ),
    ),
    "aggressive_index": _Kind(
        N_("Aggressive index"),
        N_("AWWA C400 (classes from memory)"),
        N_("Made for asbestos-cement pipe."),
        (
            N_("highly aggressive"),
            N_("moderately aggressive"),
            N_("not aggressive"),
        ),
    ),
    "chloride_sulfate": _Kind(
        N_("Chloride-to-sulfate mass ratio"),
        _USGS,
        N_("It tells of lead where copper pipe meets lead solder or brass; a first draw decides."),
        (
            N_("little concern for lead from joints"),
            N_("moderate concern for lead from joints"),
            N_("serious concern for lead from joints"),
        ),
    ),
    "larson": _Kind(
        N_("Larson-Skold index"),
        N_("Larson and Skold 1958 (from memory)"),
        N_("Made for steel in lake water."),
        (
            N_("salts hardly disturb a protecting film"),
            N_("salts may disturb a protecting film"),
            N_("salts speed up corrosion"),
        ),
    ),
    "sodium_adsorption": _Kind(
        N_("Sodium adsorption ratio"),
        N_("US Salinity Laboratory, Handbook 60 (from memory)"),
        N_("For soil and plants that are watered, not for drinking."),
    ),
    "sodium_percent": _Kind(
        N_("Sodium share of the main cations"),
        "USGS parameter 00932",
        N_("By charge, in meq/L."),
    ),
    "sodium_chloride": _Kind(
        N_("Sodium to chloride, molar"),
        N_("common practice, no source"),
        N_("About 1 fits dissolved salt; soil lowers it, a softener raises it. A hint, no proof."),
    ),
    "chloride_bromide": _Kind(
        N_("Chloride to bromide, molar"),
        N_("common practice, no source"),
        N_("About 650 in sea water, more in rock and road salt, less in rain. A hint, no proof."),
    ),
}


def name(index: Index) -> str:
    """The trade's name of an index."""
    return _(_KINDS[index.key].name)


def source(index: Index) -> str:
    """Where its formula and classes come from."""
    return _(_KINDS[index.key].source)


def meaning(index: Index) -> str:
    """The class it falls into, or from which to which; empty where none are in use."""
    if index.classes is None:
        return ""
    low, high = (_KINDS[index.key].classes[place] for place in index.classes)
    if low == high:
        return _(low)
    return _("from \u201c{low}\u201d to \u201c{high}\u201d").format(low=_(low), high=_(high))


def caution(index: Index) -> str:
    """What was assumed and what it does not tell; empty if nothing."""
    kind = _KINDS[index.key]
    taken = ""
    if index.temperature is not None:
        taken = _("The temperature was not measured: {range} °C are taken.").format(
            range=bounds(index.temperature)
        )
    return " ".join(filter(None, (_(kind.caution), taken)))
