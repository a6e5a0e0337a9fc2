"""The reference data in the language of now; keys, figures, sources and what labs print stay."""

from collections.abc import Sequence
from dataclasses import replace

from wellbook.support.translation import say
from wellbook.water.sampling.sale_rules import SaleRule
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.verdicts.cautions import Caution, Cautions, Situation


def worded(catalogue: Catalogue) -> Catalogue:
    """The catalogue with its names and explanations said."""
    return replace(
        catalogue,
        parameters={
            key: replace(one, name=say(one.name), why=say(one.why))
            for key, one in catalogue.parameters.items()
        },
        sets={
            key: replace(one, name=say(one.name), note=say(one.note))
            for key, one in catalogue.sets.items()
        },
        panels={
            key: replace(one, name=say(one.name), why=say(one.why))
            for key, one in catalogue.panels.items()
        },
    )


def worded_cautions(cautions: Cautions) -> Cautions:
    """The cautions with all that people read said."""
    once = {one.key: _caution(one) for one in cautions.of.values()}
    return Cautions(
        general=tuple(map(say, cautions.general)),
        of={key: once[one.key] for key, one in cautions.of.items()},
        clashes={name: say(text) for name, text in cautions.clashes.items()},
        situations={
            name: Situation(say(one.text), tuple(map(say, one.steps)), one.source)
            for name, one in cautions.situations.items()
        },
    )


def _caution(one: Caution) -> Caution:
    return replace(
        one,
        over=say(one.over),
        found=say(one.found),
        boil_text=say(one.boil_text),
        special={who: say(text) for who, text in one.special.items()},
    )


def worded_rules(rules: Sequence[SaleRule]) -> tuple[SaleRule, ...]:
    """Rules of a sale with name, explanation and the remarks on their sources said."""
    return tuple(
        replace(one, name=say(one.name), says=say(one.says), source=say(one.source))
        for one in rules
    )
