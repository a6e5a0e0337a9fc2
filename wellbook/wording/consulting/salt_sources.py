"""Where salt and nitrate may come from, in sentences with their source and caution."""

from collections.abc import Sequence

from wellbook.support.translation import N_, _
from wellbook.water.chemistry.salt_sources import Hint, SourceHint
from wellbook.wording.facts import bounds

_DAVIS = "Davis, Whittemore and Fabryka-Martin, Ground Water 36 (1998)"
_USGS = "Mullaney and others, USGS SIR 2009-5086 (2009)"
_WISCONSIN = "Nitka and others, University of Wisconsin Stevens Point (2014)"
_TRADE = N_("common practice, no source")

_SAID = {
    Hint.BROMIDE_RAIN: N_(
        "Chloride to bromide is {ratio} by mass: rain and shallow groundwater have 50 to 200. "
        "Small amounts of salt or sewage can still be in it."
    ),
    Hint.BROMIDE_SEWAGE: N_(
        "Chloride to bromide is {ratio} by mass: domestic sewage has 300 to 600, sea water and "
        "many brines about 290, and mixtures of rain and road salt lie there, too."
    ),
    Hint.BROMIDE_SALT: N_(
        "Chloride to bromide is {ratio} by mass: dissolved salt has 1,000 to 10,000, from roads, "
        "from softeners or from rock."
    ),
    Hint.BROMIDE_MUCH_SALT: N_(
        "Chloride to bromide is {ratio} by mass, with {chloride} mg/L of chloride: such wells were "
        "mostly ruled by dissolved salt, from roads, softeners or rock, often with some sewage or "
        "animal waste."
    ),
    Hint.BROMIDE_BETWEEN: N_(
        "Chloride to bromide is {ratio} by mass, between the fields of rain (50 to 200), sewage "
        "(300 to 600) and dissolved salt (1,000 to 10,000): a mixture fits."
    ),
    Hint.SODIUM_ONE: N_(
        "Sodium to chloride is {ratio} by amount: about one for one fits dissolved salt."
    ),
    Hint.SODIUM_LESS: N_(
        "Sodium to chloride is {ratio} by amount: less than one for one fits road salt whose "
        "sodium stayed in the soil, calcium or potassium chloride, and brine."
    ),
    Hint.SODIUM_MORE: N_(
        "Sodium to chloride is {ratio} by amount: more than one for one fits softened water, "
        "natural softening in the ground, and sodium out of rock."
    ),
    Hint.NITRATE_BORON: N_(
        "Nitrate ({nitrate} mg/L as N) stands beside chloride ({chloride} mg/L) and boron ({boron} "
        "mg/L): wastewater brings all three. Boron also comes from sea water, brine and some rock."
    ),
    Hint.NITRATE_CHLORIDE: N_(
        "Nitrate ({nitrate} mg/L as N) stands beside chloride ({chloride} mg/L): wastewater, "
        "manure and potash fertiliser bring both. Boron and bacteria would help to tell."
    ),
    Hint.NITRATE_ALONE: N_(
        "Nitrate ({nitrate} mg/L as N) with little chloride ({chloride} mg/L) fits fertiliser and "
        "ploughed land more than wastewater, without ruling that out."
    ),
    Hint.NITRATE_ONLY: N_(
        "Nitrate ({nitrate} mg/L as N) above 3 usually comes from farming or wastewater. Chloride, "
        "boron and bacteria of the same day would help to tell."
    ),
}
_SOURCES = {
    Hint.BROMIDE_MUCH_SALT: (_USGS,),
    **dict.fromkeys((Hint.SODIUM_ONE, Hint.SODIUM_LESS, Hint.SODIUM_MORE), (_TRADE,)),
    **dict.fromkeys(
        (Hint.NITRATE_BORON, Hint.NITRATE_CHLORIDE, Hint.NITRATE_ALONE), (_WISCONSIN, _USGS, _TRADE)
    ),
    Hint.NITRATE_ONLY: (_WISCONSIN,),
}


def sentence(hint: SourceHint) -> str:
    """What the figures fit."""
    told = {name: bounds(figure) for name, figure in hint.figures.items()}
    return _(_SAID[hint.kind]).format(**told)


def source(hint: SourceHint) -> str:
    """Who says so."""
    return "; ".join(_(one) for one in _SOURCES.get(hint.kind, (_DAVIS,)))


def caution() -> str:
    """What no hint tells."""
    return _(
        "Hints from one sample of untreated water, no proof: waters mix and the fields overlap. A "
        "licensed professional or the health department can tell more."
    )


def paragraph(hints: Sequence[SourceHint]) -> str:
    """The hints with their sources, then the caution; empty without a hint."""
    if not hints:
        return ""
    told = [
        _("{sentence} Source: {source}.").format(sentence=sentence(hint), source=source(hint))
        for hint in hints
    ]
    return " ".join((*told, caution()))
