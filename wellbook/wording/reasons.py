"""Why a verdict is what it is, why a unit does not convert, and what was assumed, in words."""

from collections.abc import Callable
from decimal import Decimal
from functools import reduce
from typing import TYPE_CHECKING, Any

from wellbook.support.message import Message, message
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.units.basis import NoConversion, Obstacle
from wellbook.water.units.factors import Assumed
from wellbook.water.values.judgement import Judgement
from wellbook.water.verdicts.reasons import Reason
from wellbook.wording import units

if TYPE_CHECKING:
    from wellbook.water.units.conversion import Conversion

_DIGITS = 4
_IN_UNITS = frozenset({"unit", "other_unit", "other", "basis", "form"})
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
    Obstacle.OTHER_FORM: N_("{parameter} as {form} can’t be counted as {other}."),
    Obstacle.PPT: N_("ppt may mean parts per trillion or per thousand; ask the lab which."),
    Obstacle.OTHER_QUANTITY: N_(
        "{unit} and {other_unit} measure different things ({quantity}, {other_quantity})."
    ),
    Obstacle.UNKNOWN_UNIT: N_("The unit “{unit}” is not one that Wellbook knows."),
    Obstacle.NO_UNIT: N_("No unit is printed with the figure."),
    Obstacle.TWO_BASES: N_("The sheet gives two bases, {basis} and {other}."),
    Obstacle.UNRELATED: N_("{unit} and {other} do not convert."),
    Obstacle.COUNT_OR_ESTIMATE: N_(
        "CFU are counted and MPN are estimated; one can’t be turned into the other."
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
_REASONS = {
    Reason.UNKNOWN_PARAMETER: N_("The catalogue does not know this parameter."),
    Reason.NOT_ANALYSED: N_("It was not analysed."),
    Reason.NOT_UNDERSTOOD: N_("The result “{result}” was not understood."),
    Reason.REJECTED: N_("The lab rejected this result."),
    Reason.NO_FIGURE: N_("There is no figure to compare."),
    Reason.FOUND_WITHOUT_FIGURE: N_("It was found, but the lab gives no figure."),
    Reason.NO_REPORTING_LIMIT: N_("Not found, but the sheet gives no reporting limit to compare."),
    Reason.OFF_SCALE: N_(
        "Too many to count or off scale, without a figure; a new sample would tell."
    ),
    Reason.NO_NUMBER_IN_RULE: N_("The rule gives no number."),
    Reason.SEEN_TOO_LATE: N_(
        "Not found, but the lab could see it only from {least} {unit} on, which is above the "
        "limit of {limit} {unit}."
    ),
    Reason.MORE_THAN: N_(
        "It is more than {figure} {unit}, but the sheet does not say how much more."
    ),
    Reason.ONLY_A_BOUND: N_("The sheet gives only a bound, and the range lies beyond it."),
    Reason.NOTHING_GREW: N_(
        "Nothing grew, but from {figure} per 100 mL on only would it have been seen."
    ),
    Reason.ROUNDED: N_(
        "Rounded to the figures of the limit it would be {figure}, which public supplies count as "
        "met."
    ),
    Reason.NONE_IN_100_ML: N_("The sheet gives no reporting limit; taken as none in 100 mL."),
    Reason.IN_100_ML: N_("No volume is printed; taken as 100 mL."),
    Reason.WORSE_BASIS: N_(
        "The sheet does not say whether it is counted {bases}; judged by the worse of them."
    ),
    Reason.OPEN_BASIS: N_(
        "The sheet does not say whether {parameter} is counted {bases}: {told}. Ask the lab."
    ),
    Reason.URANIUM_RANGE: N_(
        "At {least} to {most} pCi per µg, as wells usually have it, it is {low} to {high} {unit}. "
        "Ask the lab for uranium by mass."
    ),
    Reason.WITH_URANIUM: N_(
        "The limit leaves out uranium and radon, and the gross figure contains uranium."
    ),
    Reason.URANIUM_WOULD_TELL: N_("A uranium result of the same sample would tell."),
    Reason.URANIUM_TAKEN_OFF: N_("Uranium of the sample taken off: {figure} {unit}."),
    Reason.PRELIMINARY: N_("Preliminary: the lab told it before its report."),
    Reason.OVERGROWN: N_(
        "Other growth covered the plate and may have hidden it; a new sample is needed."
    ),
    Reason.HELD_BEYOND_METHOD: N_("The lab held the sample longer than its method allows."),
    Reason.MAY_BE_LATE: N_(
        "By its days alone the sample may have been held longer than 30 hours; bacteria may have "
        "died in it."
    ),
    Reason.LATE: N_("The sample was held too long; bacteria may have died in it."),
    Reason.LATE_BY_HOURS: N_(
        "The sample was held too long ({hours:.0f} h); bacteria may have died in it."
    ),
    Reason.LATE_YET_FOUND: N_("The sample was held too long, yet bacteria were found."),
    Reason.LATE_BY_HOURS_YET_FOUND: N_(
        "The sample was held too long ({hours:.0f} h), yet bacteria were found."
    ),
    Reason.OVER_RANGE: N_("The lab flags it as above its calibrated range; it may be more."),
    Reason.TOTAL_IS_MORE: N_("Only the dissolved part was measured; the total can only be more."),
    Reason.ONLY_DISSOLVED: N_(
        "Only the dissolved part was measured; the limit is for the total, which may be more."
    ),
    Reason.LIMIT_OF_DISSOLVED: N_("The limit counts only the dissolved part of what was measured."),
    Reason.LIMIT_OF_FREE: N_("The limit counts only the free part of what was measured."),
    Reason.LIMIT_OF_INORGANIC: N_("The limit counts only the inorganic part of what was measured."),
    Reason.FLUSHED_NOT_FIRST: N_("The figure is meant for a first draw; this sample was flushed."),
    Reason.MAYBE_NOT_FIRST: N_("The figure is meant for a first draw; this sample may not be one."),
    Reason.FOR_FIRST_DRAW: N_("The figure is meant for a first draw after six hours without use."),
    Reason.FLUSHED_SAYS_LITTLE: N_("A flushed sample says little about the pipes."),
    Reason.DRAW_NOT_SAID: N_("The sheet does not say how this sample was drawn."),
    Reason.IN_BLANK: N_("The lab also found it in its blank."),
    Reason.ESTIMATED_LIMIT: N_("The reporting limit itself is an estimate."),
    Reason.ACTION_LEVEL: N_("An action level for public supplies, not a maximum."),
    Reason.CONDITION: N_("The limit carries a condition: {condition}."),
    Reason.FEW_FOUND: N_("It counts only where {n} or more of its parts are found."),
    Reason.ADDED_UP: N_("Added up from {parts}."),
    Reason.BETWEEN: N_("It lies between {low} and {high} {unit}."),
    Reason.PART_WITHOUT_FIGURE: N_(
        "A part has no figure that can be added; the sum can’t be told."
    ),
    Reason.PARTIAL_SET: N_(
        "{sets} has no figure for it here, and is not the whole list: ask the authority."
    ),
    Reason.START_NOT_KNOWN: N_("Since when this limit holds is not known."),
    Reason.VAGUE_DATE: N_(
        "The limit’s date is known only as {date}, so it may not have held on that day."
    ),
}


def why(judgement: Judgement) -> str:
    """Why a verdict is what it is; empty where there is nothing to say beside it."""
    return " ".join(map(reason, judgement.reasons))


def obstacle(problem: NoConversion) -> str:
    """Why two units or bases do not convert."""
    return reason(message(problem.obstacle, **problem.facts))


def assumed(conversion: "Conversion") -> str:
    """What a conversion had to assume; empty if nothing."""
    return " ".join(map(reason, conversion.assumptions))


def reason(because: Message) -> str:
    """One reason."""
    return _sentence(because).format(**{name: _fact(name, fact) for name, fact in because.facts})


def _sentence(because: Message) -> str:
    code = because.code
    if code is Reason.PARTS_WITHOUT_FIGURE:
        return ngettext(
            "{parts} has no figure that can be added; the sum can’t be told.",
            "{parts} have no figure that can be added; the sum can’t be told.",
            _count(because),
        )
    if isinstance(code, Obstacle):
        return _(_OBSTACLES[code])
    return _(_ASSUMED[code] if isinstance(code, Assumed) else _REASONS[Reason(code)])


def _count(because: Message) -> int:
    n = dict(because.facts)["n"]
    return n if isinstance(n, int) else 0


def _fact(name: str, fact: object) -> object:
    """A fact of a reason in words."""
    if isinstance(fact, Decimal):
        return _figure(fact)
    if isinstance(fact, tuple):
        return _LISTS[name](fact)
    if name in _IN_UNITS and isinstance(fact, str):
        return units.said(fact)
    is_word = name == "condition" or fact in _QUANTITIES
    return _(fact) if is_word and isinstance(fact, str) else fact


def _figure(number: Decimal) -> str:
    """A figure for a sentence: as it is up to four digits, else to three."""
    if len(number.as_tuple().digits) > _DIGITS:
        number = Decimal(f"{number:.3g}")
    return f"{number:f}"


def _either(bases: tuple[str, ...]) -> str:
    """Bases between which a sheet leaves the choice."""
    return reduce(
        lambda some, basis: _("{bases} or {basis}").format(bases=some, basis=basis),
        map(units.said, bases),
    )


def _both(names: tuple[str, ...]) -> str:
    return reduce(lambda some, name: _("{names} and {name}").format(names=some, name=name), names)


def _by_basis(figures: tuple[tuple[str, Decimal, str], ...]) -> str:
    """What a figure would be by each basis."""
    return ", ".join(
        _("{basis} it is {figure} {unit}").format(
            basis=units.said(basis), figure=_figure(number), unit=units.said(unit)
        )
        for basis, number, unit in figures
    )


_LISTS: dict[str, Callable[[tuple[Any, ...]], str]] = {
    "bases": _either,
    "parts": _both,
    "told": _by_basis,
    "sets": ", ".join,
}
