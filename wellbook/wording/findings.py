"""What is odd about a sample, in a sentence that asks a person to look again."""

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from wellbook.support.translation import _
from wellbook.water.chemistry.balance import Balance
from wellbook.water.chemistry.interval import Interval
from wellbook.water.plausibility.slips import Slip
from wellbook.water.statistics.series import label
from wellbook.water.values.figures import plain
from wellbook.water.values.findings import Check, Finding, Oddity
from wellbook.wording import units
from wellbook.wording.facts import bounds, with_unit

if TYPE_CHECKING:
    from wellbook.water.plausibility.usual_range import Odd

_Facts = Mapping[str, Any]


def worded(oddity: Oddity) -> Finding:
    """The finding that a person reads."""
    return Finding(oddity.key, said(oddity), severity=oddity.severity, results=oddity.results)


def said(oddity: Oddity) -> str:
    """The sentence on what is odd."""
    return _SAID[oddity.key](oddity.facts)


def _future_date(facts: _Facts) -> str:
    text = _("The sample is dated {day}, which is still to come.").format(day=facts["day"])
    return _with_swap(text, facts)


def _after_receipt(facts: _Facts) -> str:
    text = _(
        "The sample is dated {drawn} but came to the lab on {received}. Was the day of the "
        "report or of the analysis taken?"
    ).format(drawn=facts["drawn"].iso(), received=facts["received"].iso())
    return _with_swap(text, facts)


def _with_swap(text: str, facts: _Facts) -> str:
    other = facts["swapped"]
    if other is None:
        return text
    return f"{text} " + _("Were day and month swapped ({other})?").format(other=other)


def _analysed_first(facts: _Facts) -> str:
    return _(
        "{n} of {total} results were analysed before the sample was drawn ({name}: "
        "{analysed}, drawn {drawn}). Is the day of sampling right?"
    ).format(
        n=facts["n"],
        total=facts["total"],
        name=facts["name"],
        analysed=facts["analysed"].iso(),
        drawn=facts["drawn"].iso(),
    )


def _wrong_column(facts: _Facts) -> str:
    text = (
        _(
            "{n} of {total} figures are exactly their legal limit ({names} …). Was the wrong "
            "column copied?"
        )
        if facts["legal"]
        else _(
            "{n} of {total} figures are exactly their reporting limit ({names} …). Was the wrong "
            "column copied?"
        )
    )
    return text.format(n=facts["n"], total=facts["total"], names=", ".join(facts["names"]))


def _zero(facts: _Facts) -> str:
    return _(
        "{parameter} is reported as 0. Labs mostly print a reporting limit, such as "
        "<0.5: if the sheet has one, enter it so."
    ).format(**facts)


def _lost_sign(facts: _Facts) -> str:
    said = {
        "earlier": _(
            "{parameter} {figure} {unit} is exactly the reporting limit of earlier "
            "non-detects. Is there a < before it on the sheet?"
        ),
        "own": _(
            "{parameter} {figure} {unit} is exactly its own reporting limit. Is there a < before "
            "it on the sheet?"
        ),
        "beside": _(
            "{parameter} {figure} {unit} is exactly the reporting limit of other non-detects of "
            "this test. Is there a < before it on the sheet?"
        ),
    }[facts["whose"]]
    told = {key: facts[key] for key in ("parameter", "figure")}
    return said.format(**told, unit=units.said(facts["unit"]))


def _beyond(facts: _Facts) -> str:
    parameter = facts["parameter"]
    told = {
        "parameter": parameter.name,
        "figure": plain(facts["figure"], 4),
        "end": plain(facts["end"], 4),
        "unit": units.said(label(parameter)),
    }
    if facts["is_high"]:
        return _(
            "{parameter} {figure} {unit} is more than almost any well holds ({end} {unit}). Is the "
            "unit right, µg/L or mg/L, and the decimal point?"
        ).format(**told)
    return _(
        "{parameter} {figure} {unit} is less than almost any well shows ({end} {unit}). Is the "
        "unit right, and the decimal point?"
    ).format(**told)


def _entered_before(facts: _Facts) -> str:
    return _(
        "All {n} readings of {day} are already in the record. Is it the same report a second time?"
    ).format(**facts)


def _part_over_whole(facts: _Facts) -> str:
    if facts["dissolved"]:
        said = _("Dissolved {part} is more than total {whole}. Were the two swapped?")
    else:
        said = _(
            "{part} is more than {whole}, of which it is a part. Were two rows swapped, or a "
            "unit or basis mistaken?"
        )
    return said.format(part=facts["part"], whole=facts["whole"])


def _germ_without_coliform(facts: _Facts) -> str:
    return _(
        "{germ} is reported present ({found}) but total coliform is not ({none}). That "
        "can’t be: every {germ} is a coliform. Look at the report again, and take the "
        "water as contaminated until the lab explains it."
    ).format(**facts)


def _hardness_sum(facts: _Facts) -> str:
    text = _(
        "Hardness {printed} mg/L as CaCO3 does not fit calcium and magnesium, which make "
        "{computed}."
    ).format(printed=plain(facts["printed"], 3), computed=plain(facts["computed"], 3))
    slip = {
        Slip.HARDNESS_IN_GRAINS: _("Is the hardness in grains per gallon?"),
        Slip.MG_FOR_GRAINS: _("Was a figure in mg/L taken for grains per gallon?"),
        Slip.BOTH_AS_CACO3: _("Are calcium and magnesium given as CaCO3?"),
        Slip.POINT: _("Is a decimal point out of place?"),
    }.get(facts["slip"], "")
    return f"{text} {slip}".strip()


def _charge_balance(facts: _Facts) -> str:
    balance: Balance = facts["balance"]
    lacking = {
        ("potassium", "nitrate"): _("potassium and nitrate not measured"),
        ("potassium",): _("potassium not measured"),
        ("nitrate",): _("nitrate not measured"),
    }.get(balance.lacking)
    text = (
        _(
            "Cations ({cations} meq/L) and anions ({anions} meq/L) should be equal but differ by "
            "{percent} % of their sum ({lacking})."
        )
        if lacking
        else _(
            "Cations ({cations} meq/L) and anions ({anions} meq/L) should be equal but differ by "
            "{percent} % of their sum."
        )
    ).format(
        cations=bounds(balance.cations),
        anions=bounds(balance.anions),
        percent=_percent(balance),
        lacking=lacking,
    )
    return f"{text} {_question(facts['slips'])}".strip()


def _percent(balance: Balance) -> str:
    ends = sorted((abs(balance.percent.low), abs(balance.percent.high)))
    return bounds(Interval(*ends), 2)


def _question(likely: Sequence[Slip]) -> str:
    if not likely:
        return ""
    slip, *others = map(_slip, likely)
    if others:
        return _("Could it be {slip} or {other}?").format(slip=slip, other=others[0])
    return _("Could it be {slip}?").format(slip=slip)


def _solids_sum(facts: _Facts) -> str:
    return _ratio(
        _(
            "Dissolved solids ({solids} mg/L) are {ratio} times the sum of what was measured "
            "({other}); usual is {low} to {high}. Look at both figures again."
        ),
        facts,
    )


def _solids_conductivity(facts: _Facts) -> str:
    return _ratio(
        _(
            "Dissolved solids ({solids} mg/L) are {ratio} times the conductivity ({other}); usual "
            "is {low} to {high}. Look at both figures again."
        ),
        facts,
    )


def _ratio(text: str, facts: _Facts) -> str:
    return text.format(
        solids=bounds(facts["solids"]),
        ratio=bounds(facts["ratio"]),
        other=bounds(facts["other"]),
        low=plain(facts["low"]),
        high=plain(facts["high"]),
    )


def _far_from_history(facts: _Facts) -> str:
    odd: Odd = facts["odd"]
    if odd.parameter.key == "ph":
        return _(
            "pH {figure} is far from {usual}, the middle of {n} other tests here. Is it copied "
            "right, and the right sample?"
        ).format(figure=plain(odd.figure, 3), usual=plain(odd.usual, 2), n=odd.n)
    text = (
        _(
            "{parameter} ({printed}) is {factor} times higher than {usual}, the middle of {n} "
            "other tests here. Could it be {slip}?"
        )
        if odd.off > 0
        else _(
            "{parameter} ({printed}) is {factor} times lower than {usual}, the middle of {n} "
            "other tests here. Could it be {slip}?"
        )
    )
    return text.format(
        parameter=odd.parameter.name,
        printed=with_unit(odd.result.reading.text, odd.result.reading.unit, ""),
        factor=plain(10 ** abs(odd.off), 2),
        usual=f"{plain(10**odd.usual, 3)} {units.said(label(odd.parameter))}",
        n=odd.n,
        slip=_slip(facts["slip"]),
    )


def _many_far_from_history(facts: _Facts) -> str:
    odd: Sequence[Odd] = facts["all"]
    factors = sorted(10 ** abs(one.off) for one in odd)
    text = (
        _("{n} figures ({names}) are {low} to {high} times higher than in other tests here.")
        if odd[0].off > 0
        else _("{n} figures ({names}) are {low} to {high} times lower than in other tests here.")
    ).format(
        n=len(odd),
        names=", ".join(one.parameter.name for one in odd),
        low=plain(factors[0], 2),
        high=plain(factors[-1], 2),
    )
    question = (
        _("Could it be {slip}?").format(slip=_slip(facts["slip"]))
        if facts["slip"]
        else _("Is it the right tap, or was a treatment unit bypassed, new or spent?")
    )
    return f"{text} {question}"


def _rows_swapped(facts: _Facts) -> str:
    one, other = facts["one"], facts["other"]
    return _(
        "{one} ({figure}) and {other} ({other_figure}) are both far from the other tests "
        "here, and would fit if they changed places. Were rows swapped?"
    ).format(
        one=one.parameter.name,
        figure=one.result.reading.text,
        other=other.parameter.name,
        other_figure=other.result.reading.text,
    )


def _other_side_of_softener(facts: _Facts) -> str:
    hard: Odd = facts["hard"]
    text = (
        _(
            "{parameter} is far lower and sodium far higher than in the other tests: this looks "
            "like water from the other side of a softener. Is it the right tap?"
        )
        if hard.off < 0
        else _(
            "{parameter} is far higher and sodium far lower than in the other tests: this looks "
            "like water from the other side of a softener. Is it the right tap?"
        )
    )
    return text.format(parameter=hard.parameter.name)


def _slip(slip: Slip) -> str:
    """A slip after `Could it be`."""
    return {
        Slip.AS_BICARBONATE: _("alkalinity given as bicarbonate"),
        Slip.HALVED: _("alkalinity divided by 100 and not by 50 to get meq/L"),
        Slip.NITRATE_AS_NO3: _("nitrate given as NO3 and not as N"),
        Slip.NITRATE_AS_N: _("nitrate given as N and not as NO3"),
        Slip.SULFATE_AS_S: _("sulfate given as S"),
        Slip.CALCIUM_AS_CACO3: _("calcium given as CaCO3"),
        Slip.MAGNESIUM_AS_CACO3: _("magnesium given as CaCO3"),
        Slip.POINT_IN_CALCIUM: _("a decimal point out of place in calcium"),
        Slip.POINT_IN_MAGNESIUM: _("a decimal point out of place in magnesium"),
        Slip.POINT_IN_SODIUM: _("a decimal point out of place in sodium"),
        Slip.POINT_IN_CHLORIDE: _("a decimal point out of place in chloride"),
        Slip.POINT_IN_SULFATE: _("a decimal point out of place in sulfate"),
        Slip.POINT_IN_ALKALINITY: _("a decimal point out of place in alkalinity"),
        Slip.POINT: _("a decimal point out of place"),
        Slip.POINT_BY_TWO: _("a decimal point out of place by two"),
        Slip.MICRO_FOR_MILLI: _("µg/L taken for mg/L, or the other way round"),
        Slip.NITRATE_FORMS: _("nitrate as NO3 taken for nitrate as N, or the other way round"),
        Slip.NITRITE_FORMS: _("nitrite as NO2 taken for nitrite as N, or the other way round"),
        Slip.GRAINS: _("grains per gallon taken for mg/L, or the other way round"),
        Slip.ANY: _("a mistake in copying, or another sample"),
    }[slip]


_SAID: dict[Check, Callable[[_Facts], str]] = {
    Check.FUTURE_DATE: _future_date,
    Check.AFTER_RECEIPT: _after_receipt,
    Check.ANALYSED_FIRST: _analysed_first,
    Check.WRONG_COLUMN: _wrong_column,
    Check.ZERO: _zero,
    Check.LOST_SIGN: _lost_sign,
    Check.ENTERED_BEFORE: _entered_before,
    Check.PART_OVER_WHOLE: _part_over_whole,
    Check.GERM_WITHOUT_COLIFORM: _germ_without_coliform,
    Check.HARDNESS_SUM: _hardness_sum,
    Check.CHARGE_BALANCE: _charge_balance,
    Check.SOLIDS_SUM: _solids_sum,
    Check.SOLIDS_CONDUCTIVITY: _solids_conductivity,
    Check.FAR_FROM_HISTORY: _far_from_history,
    Check.MANY_FAR_FROM_HISTORY: _many_far_from_history,
    Check.ROWS_SWAPPED: _rows_swapped,
    Check.BEYOND: _beyond,
    Check.OTHER_SIDE_OF_SOFTENER: _other_side_of_softener,
}
