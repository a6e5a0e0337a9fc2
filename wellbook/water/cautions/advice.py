"""What to say about the water of a sample, resolved over all its readings together.

Advice for one parameter can be wrong for another: boiling kills bacteria and concentrates nitrate.
So advice is never given row by row: all readings go in, one agreed text comes out. It is gathered
from all judgements of a reading and not from its headline, so that a worse figure never says less.
"""

from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import date

from wellbook.water.cautions.cautions import INFANT, PEOPLE, PREGNANCY, Caution, Cautions
from wellbook.water.cautions.drinking import Boiling, Drinking, drinking
from wellbook.water.cautions.findings import (
    Finding,
    Judged,
    finding_by,
    is_near,
    is_none_found,
    reaches,
)

_GASES = frozenset({"methane", "benzene"})  # caution tables: gas, solvents and fuel
_SAID_OF_BOILING = {
    Boiling.VENTED: "vented",
    Boiling.LESSER: "lesser",
    Boiling.LAST: "last",
    Boiling.NO: "no",
}
_COLIFORM, _E_COLI = "total_coliform", "e_coli"  # caution tables


@dataclass(frozen=True, slots=True)
class CautionText:
    """A text of the reference data, with what belongs into its places.

    Attributes:
        text: The text, with places for what of the following is set.
        because: Names of parameters that it is about.
        people: Of `PEOPLE` those that it is about.
        where: Name of another point that it is about.
        is_to_people: Whether it is said to these people, and has no place for them.
    """

    text: str
    because: tuple[str, ...] = ()
    people: tuple[str, ...] = ()
    where: str = ""
    is_to_people: bool = False


@dataclass(frozen=True, slots=True)
class Advice:
    """One thing to say about a sample; `wording.reference.worded_advice` says it.

    Attributes:
        names: Parameters that it is about.
        texts: What to say, text by text.
        urgent: Whether people should act the same day.
        source: Who says so.
        people: Whom it is about if not everybody; private.
        finding: The worst that the readings amount to.
        text: The texts, said.
    """

    names: tuple[str, ...]
    texts: tuple[CautionText, ...]
    urgent: bool = False
    source: str = ""
    people: tuple[str, ...] = ()
    finding: Finding = Finding.NOTHING
    text: str = ""


Group = tuple[Caution, Finding, bool, tuple[Judged, ...]]  # `bool`: below a range


def resolve(
    sample: Sequence[Judged],
    cautions: Cautions,
    people: AbstractSet[str] = frozenset(),
    today: date | None = None,
) -> tuple[Advice, ...]:
    """What to say about the readings of one sample, taken together.

    Urgent things come first, then the worse finding, then what stands first in `cautions.toml`.

    Args:
        sample: Its readings and sums, each with all its judgements.
        cautions: The reference data.
        people: Of `PEOPLE` those who drink the water.
        today: The day, for the age of nitrate; None if it does not matter.
    """
    ordered = tuple(who for who in PEOPLE if who in people)
    found = {one: finding_by(one, cautions) for one in sample}
    boiled = drinking(found, cautions, frozenset(ordered), today)
    groups = _grouped(found, cautions)
    tables = list(cautions.of)
    groups.sort(key=lambda group: (-group[1], tables.index(group[0].key)))
    said = [_advice(group, _text(group, cautions, found), ordered, boiled) for group in groups]
    first = [] if boiled is None else [_of_boiling(boiled, cautions, groups)]
    if boiled is not None and (gases := _gases(groups)):
        names = (*boiled.germs, *gases)
        first.append(Advice(names, (CautionText(cautions.clashes["disinfect"]),), urgent=True))
    told = (*filter(None, said), *_of_people(found, cautions, ordered))
    return (*first, *sorted(told, key=lambda advice: not advice.urgent))


def _grouped(found: dict[Judged, Finding], cautions: Cautions) -> list[Group]:
    """Readings that share a text, together; what is merely there is not told beside worse."""
    groups: dict[tuple[str, Finding, bool], list[Judged]] = {}
    tables: dict[str, Caution] = {}
    worst: dict[str, Finding] = {}
    for one, sign in found.items():
        worst[one.parameter.key] = max(sign, worst.get(one.parameter.key, sign))
    for one, sign in found.items():
        caution = cautions.of.get(one.parameter.key)
        is_told = sign > Finding.NEAR or sign is worst[one.parameter.key]
        if caution is not None and sign > Finding.NOTHING and is_told:
            tables[caution.key] = caution
            groups.setdefault((caution.key, sign, one.is_low), []).append(one)
    return [(tables[key], sign, low, tuple(ones)) for (key, sign, low), ones in groups.items()]


def _text(group: Group, cautions: Cautions, sample: Mapping[Judged, Finding]) -> str:
    """What is said of a finding; a worse one without a text of its own never says less."""
    caution, sign, is_low, ones = group
    found = caution.found if sign is Finding.FOUND or caution.always else ""
    if sign is Finding.OVER:
        clash = _clash_of_coliform(ones, sample, cautions) if caution.key == _COLIFORM else ""
        return (is_low and caution.low) or cautions.clashes.get(clash, caution.over)
    if sign is Finding.UNDECIDED:
        return caution.undecided or (caution.over and cautions.undecided)
    if sign is Finding.ADOPTED:
        return caution.adopted or caution.over
    if sign is Finding.TASTE:
        near = cautions.clashes["taste_and_near"] if any(map(is_near, ones)) else ""
        figures = [said for said in cautions.people if said.start is not None]
        is_told = near or any(reaches(one, said, sign) for said in figures for one in ones)
        usual = caution.taste or ("" if is_told else caution.over and cautions.taste)
        return " ".join(filter(None, (usual, near, found)))
    return found


def _clash_of_coliform(
    ones: Sequence[Judged], sample: Mapping[Judged, Finding], cautions: Cautions
) -> str:
    """What E. coli makes of a coliform finding: found as well, not told, or looked for in vain."""
    e_coli = {
        one: sign
        for one, sign in sample.items()
        if (caution := cautions.of.get(one.parameter.key)) and caution.key == _E_COLI
    }
    if any(sign is Finding.OVER for sign in e_coli.values()):
        return "coliform_with_e_coli"
    days = [one.day for one in ones if one.day is not None]
    is_absent = any(
        is_none_found(one) and (one.day is None or all(day <= one.day for day in days))
        for one in e_coli
    )
    return "" if is_absent else "coliform_alone"


def _advice(
    group: Group, text: str, people: Sequence[str], boiled: Drinking | None
) -> Advice | None:
    caution, sign, _unused, ones = group
    if not text:
        return None
    is_over = sign >= Finding.ADOPTED
    meant = tuple(who for who in people if is_over and who in caution.special)
    boil = caution.boil_text if is_over and boiled is None else ""
    texts = tuple(filter(None, (text, boil, *(caution.special[who] for who in meant))))
    urgent = (caution.urgent and is_over) or bool(meant)
    said = tuple(map(CautionText, texts))
    return Advice(_names(ones), said, urgent, caution.source, finding=sign)


def _of_people(
    found: dict[Judged, Finding], cautions: Cautions, people: Sequence[str]
) -> Iterable[Advice]:
    """What is said to people of the house; to others, where it would be called taste alone."""
    for said in cautions.people:
        meant = tuple(who for who in people if who in said.who)
        ones = tuple(one for one, sign in found.items() if reaches(one, said, sign))
        if not meant:
            is_figure = said.start is not None  # what any trace does is asked of the house alone
            ones = tuple(
                one for one in ones if is_figure and _is_plain_taste(one, found[one], cautions)
            )
        if ones:
            text = CautionText(said.text, people=meant or said.who, is_to_people=True)
            worst = max(found[one] for one in ones)
            yield Advice(_names(ones), (text,), bool(meant), said.source, meant, worst)


def _is_plain_taste(one: Judged, sign: Finding, cautions: Cautions) -> bool:
    """Whether only a level of taste is passed, of which the parameter's table has no own words."""
    caution = cautions.of.get(one.parameter.key)
    return sign is Finding.TASTE and (caution is None or not caution.taste)


def _of_boiling(boiled: Drinking, cautions: Cautions, groups: Sequence[Group]) -> Advice:
    """The one text on boiling, for grown-up people and for each person who needs more care."""
    texts = []
    if boiled.boiling in {Boiling.FITS, Boiling.VENTED}:
        texts.append(CautionText(_usual_boiling(groups)))
    if boiled.boiling is not Boiling.FITS:
        text = cautions.boil[_SAID_OF_BOILING[boiled.boiling]]
        texts.append(CautionText(text, because=boiled.because))
    elif boiled.is_turbid:
        texts.append(CautionText(cautions.boil["turbid"]))
    if boiled.other_only and boiled.boiling is not Boiling.NO:
        texts.append(CautionText(cautions.boil["people"], people=boiled.other_only))
    if boiled.nitrate_unknown and boiled.boiling is not Boiling.NO:
        texts.append(CautionText(cautions.boil["nitrate_unknown"], people=(INFANT, PREGNANCY)))
    names = (*boiled.germs, *boiled.because)
    return Advice(names, tuple(texts), urgent=True, finding=Finding.OVER)


def _usual_boiling(groups: Sequence[Group]) -> str:
    """The strongest sentence on boiling of the bacteria that were found."""
    texts = [
        caution.boil_text
        for caution, sign, _unused, _unused2 in groups
        if caution.boil == "yes" and sign >= Finding.UNDECIDED
    ]
    return texts[-1] if len(texts) == 1 else _strongest(groups)


def _strongest(groups: Sequence[Group]) -> str:
    worst = max(
        (group for group in groups if group[0].boil == "yes"),
        key=lambda group: (group[0].key == "e_coli" and group[1] >= Finding.UNDECIDED, group[1]),
    )
    return worst[0].boil_text


def _gases(groups: Sequence[Group]) -> tuple[str, ...]:
    return tuple(
        name
        for caution, sign, _unused, ones in groups
        if caution.key in _GASES and sign >= Finding.MET
        for name in _names(ones)
    )


def _names(ones: Iterable[Judged]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.parameter.name for one in ones))
