"""The reference data in the language of now; keys, figures, names of rules and of labs stay.

With it what is said of a sample in the texts of the cautions.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from wellbook.support.translation import _, ngettext, pgettext
from wellbook.water.cautions.advice import Advice, CautionText
from wellbook.water.cautions.cautions import (
    ANIMALS,
    CHILD,
    DIALYSIS,
    DIET,
    IMMUNE,
    INFANT,
    PREGNANCY,
    Caution,
    Cautions,
)
from wellbook.water.values.catalogue import Catalogue

if TYPE_CHECKING:
    from wellbook.water.sampling.sale_rules import SaleRule
    from wellbook.water.sampling.upkeep import Upkeep


def worded(catalogue: Catalogue) -> Catalogue:
    """The catalogue with its names and explanations said."""
    return replace(
        catalogue.renamed(
            {
                key: replace(one, name=_(one.name), why=_(one.why))
                for key, one in catalogue.parameters.items()
            }
        ),
        sets={
            key: replace(one, name=_(one.name), note=_(one.note))
            for key, one in catalogue.sets.items()
        },
        panels={
            key: replace(one, name=_(one.name), why=_(one.why))
            for key, one in catalogue.panels.items()
        },
        triggers=tuple(
            replace(one, name=_(one.name), why=_(one.why)) for one in catalogue.triggers
        ),
        bottles=tuple(
            replace(one, name=_(one.name), before=_(one.before), fill=_(one.fill))
            for one in catalogue.bottles
        ),
    )


def worded_cautions(cautions: Cautions) -> Cautions:
    """The cautions with all that people read said."""
    once = {one.key: _caution(one) for one in cautions.of.values()}
    return Cautions(
        general=tuple(map(_, cautions.general)),
        of={key: once[one.key] for key, one in cautions.of.items()},
        people=tuple(replace(one, text=_(one.text)) for one in cautions.people),
        undecided=_(cautions.undecided),
        taste=_(cautions.taste),
        boil={name: _(text) for name, text in cautions.boil.items()},
        clashes={name: _(text) for name, text in cautions.clashes.items()},
        behind={name: (_(text), source) for name, (text, source) in cautions.behind.items()},
        situations={
            name: replace(one, text=_(one.text), steps=tuple(map(_, one.steps)))
            for name, one in cautions.situations.items()
        },
    )


def _caution(one: Caution) -> Caution:
    return replace(
        one,
        over=_(one.over),
        undecided=_(one.undecided),
        adopted=_(one.adopted),
        taste=_(one.taste),
        low=_(one.low),
        found=_(one.found),
        boil_text=_(one.boil_text),
        special={who: _(text) for who, text in one.special.items()},
    )


def worded_advice(advice: Advice) -> Advice:
    """What to say about a sample with its texts said; they come from cautions that are said."""
    return replace(advice, text=" ".join(map(_caution_text, advice.texts)))


def _caution_text(said: CautionText) -> str:
    people = listed([person(who) for who in said.people])
    if said.is_to_people:
        return _("For {people}: {text}").format(people=people, text=said.text)
    if not said.people and not said.because:
        return said.text
    return said.text.format(people=people, because=listed(said.because), where=said.where)


def person(who: str) -> str:
    """People who need more care, as they are named in the plural."""
    return {
        INFANT: pgettext("person", "babies"),
        PREGNANCY: pgettext("person", "pregnant women"),
        CHILD: pgettext("person", "small children"),
        IMMUNE: pgettext("person", "people with a weak immune system"),
        DIALYSIS: pgettext("person", "people on dialysis at home"),
        DIET: pgettext("person", "people on a low-sodium diet"),
        ANIMALS: pgettext("person", "animals"),
    }[who]


def listed(names: Sequence[str]) -> str:
    """Names as people list them."""
    if len(names) < 2:  # noqa: PLR2004  nothing to join
        return "".join(names)
    *others, last = names
    return _("{names} and {name}").format(names=", ".join(others), name=last)


def worded_rules(rules: "Sequence[SaleRule]") -> "tuple[SaleRule, ...]":
    """Rules of a sale with name, explanation and the remarks on their sources said."""
    return tuple(
        replace(one, name=_(one.name), says=_(one.says), source=_(one.source)) for one in rules
    )


def worded_upkeep(upkeep: "Upkeep") -> "Upkeep":
    """The tasks of upkeep and the checklist of an inspection with all that people read said."""
    return replace(
        upkeep,
        tasks=tuple(
            replace(
                task,
                part=_(task.part),
                task=_(task.task),
                use=_(task.use),
                sign=_(task.sign),
                who=_(task.who),
                caution=_(task.caution),
            )
            for task in upkeep.tasks
        ),
        checklist=tuple(
            replace(
                item,
                name=_(item.name),
                line=_(item.line),
                do=_(item.do),
                who=_(item.who),
                caution=_(item.caution),
            )
            for item in upkeep.checklist
        ),
    )


def takes(rule: "SaleRule") -> str:
    """How old a test may be by a rule of a sale."""
    if rule.months is not None:
        return ngettext("up to {n} month", "up to {n} months", rule.months).format(n=rule.months)
    if rule.days is None:
        return _("not told")
    if rule.most_days is not None:
        return _("up to {least} to {most} days").format(least=rule.days, most=rule.most_days)
    return ngettext("up to {n} day", "up to {n} days", rule.days).format(n=rule.days)


_TWO = re.compile(r"\b(tables|parts) ([\w.-]+) and ([\w.-]+)")


def cited(source: str) -> str:
    """The citation of a rule with its words for a place in it said.

    The rest names the rule as it is printed, by which it is found, and stays as it is.
    """
    both = _TWO.sub(lambda found: f"{found[1]} {listed((found[2], found[3]))}", source)
    said = {
        "Annex": pgettext("citation", "Annex"),
        "as it stood on": pgettext("citation", "as it stood on"),
        "as of": pgettext("citation", "as of"),
        "chapter": pgettext("citation", "chapter"),
        "edition": pgettext("citation", "edition"),
        "note": pgettext("citation", "note"),
        "part": pgettext("citation", "part"),
        "read in": pgettext("citation", "read in"),
        "schedule": pgettext("citation", "schedule"),
        "summary table": pgettext("citation", "summary table"),
        "summary tables": pgettext("citation", "summary tables"),
        "table": pgettext("citation", "table"),
        "tables": pgettext("citation", "tables"),
        "technical document on": pgettext("citation", "technical document on"),
        "text of": pgettext("citation", "text of"),
        "volume": pgettext("citation", "volume"),
    }
    words = "|".join(sorted(said, key=len, reverse=True))
    return re.sub(rf"\b(?:{words})\b", lambda found: said[found[0]], both)
