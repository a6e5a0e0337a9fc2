"""Whom a household asks at its place, and who asks it: authority, emergency number, labs, sales."""

from collections.abc import Iterable
from dataclasses import replace

from wellbook.planning.settings import Settings, ask, emergency, place
from wellbook.support.translation import _
from wellbook.water.cautions.cautions import Cautions
from wellbook.water.sampling.sale_rules import SaleRule


def of_the_place(cautions: Cautions, settings: Settings) -> Cautions:
    """The cautions with the authority and the number of the place, where one was named."""
    said = []
    if who := ask(settings):
        said.append(_("Here it is {who} that can say more.").format(who=_(who)))
    if number := emergency(settings):
        said.append(_("In an emergency call {number}.").format(number=number))
    return replace(cautions, general=(*cautions.general, *said))


def for_a_reader(cautions: Cautions, settings: Settings) -> Cautions:
    """The same for what leaves the house: the place's own words, not what the household typed."""
    alone = {key: settings.get(key, "") for key in ("country", "subdivision")}
    return of_the_place(cautions, alone)


def of_labs(settings: Settings) -> str:
    """What vouches for a lab at the household's place; empty where it named none."""
    labs = place(settings).labs if settings.get("country", "") else ""
    return _("Labs here are usually {labs}.").format(labs=_(labs)) if labs else ""


def rules_at(rules: Iterable[SaleRule], settings: Settings) -> tuple[SaleRule, ...]:
    """The rules of a sale that hold at the household's place; all where it named none.

    Without a state those of every state of the country that asks for a test are among them.
    """
    country, state = settings.get("country", ""), settings.get("subdivision", "")
    return tuple(
        rule
        for rule in rules
        if (not country or rule.holds_in(country, state)) and (rule.parameters or state)
    )
