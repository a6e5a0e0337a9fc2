"""Why a unit does not convert, and what a conversion assumed, as reasons of a verdict.

The reasons of a verdict are still sentences; when they are codes, these go to `wording`.
"""

from functools import reduce

from wellbook.support.translation import N_, _
from wellbook.water.units.basis import NoConversion, Obstacle
from wellbook.water.units.conversion import Conversion
from wellbook.water.units.factors import Assumed, Assumption

_QUANTITIES = frozenset(
    {
        N_("amount concentration"),
        N_("bacteria count"),
        N_("color"),
        N_("conductivity"),
        N_("dose"),
        N_("equivalent concentration"),
        N_("fibers"),
        N_("mass concentration"),
        N_("mass fraction"),
        N_("odor"),
        N_("percent"),
        N_("potential"),
        N_("presence"),
        N_("radioactivity"),
        N_("ratio"),
        N_("temperature"),
        N_("turbidity"),
        N_("turbidity by candle"),
    }
)
_OBSTACLES = {
    Obstacle.UNKNOWN_FORM: N_("{parameter} “{form}” is a form that Wellbook does not know."),
    Obstacle.NO_CHARGE: N_("{parameter} has no charge on file, so equivalents mean nothing."),
    Obstacle.NO_MOLAR_MASS: N_("No molar mass is on file for {parameter}."),
    Obstacle.OTHER_FORM: N_("{parameter} as {form} can't be counted as {other}."),
    Obstacle.PPT: N_("ppt may mean parts per trillion or per thousand; ask the lab which."),
    Obstacle.OTHER_QUANTITY: N_(
        "{unit} and {other_unit} measure different things ({quantity}, {other_quantity})."
    ),
    Obstacle.UNKNOWN_UNIT: N_("The unit “{unit}” is not one that Wellbook knows."),
    Obstacle.NO_UNIT: N_("No unit is printed with the figure."),
    Obstacle.TWO_BASES: N_("The sheet gives two bases, {basis} and {other}."),
    Obstacle.UNRELATED: N_("{unit} and {other} do not convert."),
    Obstacle.COUNT_OR_ESTIMATE: N_(
        "CFU are counted and MPN are estimated; one can't be turned into the other."
    ),
    Obstacle.NO_VOLUME: N_("No volume is printed with the count."),
    Obstacle.OPEN_BASIS: N_(
        "The sheet does not say whether {parameter} is counted {bases}; ask the lab."
    ),
    Obstacle.GRAINS_OF_AN_ION: N_(
        "Grains of {parameter} may be counted as CaCO3 or as {form}, and the sheet does not say "
        "which; ask the lab."
    ),
}
_ASSUMED = {
    Assumed.EQUAL_METERS: N_("NTU and FNU are taken as equal; the two kinds of meter may differ."),
    Assumed.VOLUME: N_("No volume is printed; taken as per 100 mL."),
    Assumed.BASIS: N_("No basis is printed; taken as {form}, as is usual."),
    Assumed.DILUTE: N_("{unit} is taken as for dilute water, 1 kg per litre."),
    Assumed.URANIUM: N_(
        "Taken at {activity} pCi per µg of uranium; the true ratio differs by well."
    ),
    Assumed.TEMPERATURE: N_(
        "Taken from {temperature} to {other} by the factor 1.116 for natural waters."
    ),
}


def obstacle(problem: NoConversion) -> str:
    """Why two units or bases do not convert."""
    facts = {name: _fact(fact) for name, fact in problem.facts.items()}
    return _(_OBSTACLES[problem.obstacle]).format(**facts)


def _fact(fact: object) -> object:
    if isinstance(fact, tuple):  # bases between which a sheet leaves the choice
        return reduce(lambda some, one: _("{bases} or {basis}").format(bases=some, basis=one), fact)
    return _(fact) if isinstance(fact, str) and fact in _QUANTITIES else fact


def assumed(conversion: Conversion) -> str:
    """What a conversion had to assume; empty if nothing."""
    return " ".join(map(_assumption, conversion.assumptions))


def _assumption(assumption: Assumption) -> str:
    return _(_ASSUMED[assumption.kind]).format(**dict(assumption.facts))
