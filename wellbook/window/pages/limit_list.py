"""The limits of a parameter with their sources, those of the household's sets first."""

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout

from wellbook.support.translation import _
from wellbook.water.values.limits import Limit
from wellbook.water.values.parameters import Parameter
from wellbook.window.common.household import Household
from wellbook.window.common.words import limit_words, partial_words
from wellbook.window.widgets.layouts import clear_layout, words
from wellbook.wording import verdicts
from wellbook.wording.reference import cited


def fill(
    column: QVBoxLayout, parameter: Parameter, household: Household, chosen: Sequence[str]
) -> None:
    """Set the limits of a parameter in the chosen sets into a column of the page."""
    clear_layout(column)
    catalogue = household.catalogue
    limits = [limit for limit in catalogue.limits_of(parameter.key) if limit.set in chosen]
    if not limits:
        column.addWidget(words(_("The chosen limit sets have none for it."), quiet=True))
    for limit in _newest_first(limits, chosen):
        name = catalogue.sets[limit.set].name
        column.addWidget(words(f"{name}: {limit_words(limit)} ({verdicts.kind(limit.kind)})"))
        column.addWidget(words(_source(limit), quiet=True))
    column.addWidget(
        words(
            _(
                "These limits bind public supplies. For a private well they are yardsticks: your "
                "health department may advise others."
            ),
            quiet=True,
        )
    )


def _newest_first(limits: Sequence[Limit], chosen: Sequence[str]) -> list[Limit]:
    by_start = sorted(limits, key=lambda limit: limit.start, reverse=True)
    return sorted(by_start, key=lambda limit: (bool(limit.end), chosen.index(limit.set)))


def _source(limit: Limit) -> str:
    start, end = partial_words(limit.start), partial_words(limit.end)
    if start and end:
        force = _("In force from {start} to {end}").format(start=start, end=end)
    elif end:
        force = _("In force until {end}").format(end=end)
    elif start:
        force = _("In force since {start}").format(start=start)
    else:
        force = _("Start not known")
    parts = (force, _(limit.condition), _(limit.note), cited(limit.source))
    return ". ".join(part.rstrip(".") for part in parts if part) + "."
