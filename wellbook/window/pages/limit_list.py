"""The limits of a parameter with their sources: what is in force, what is to come, what was."""

from collections.abc import Sequence
from datetime import date

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
    for limit in _in_order(limits, chosen, household.today):
        name = catalogue.sets[limit.set].name
        column.addWidget(words(f"{name}: {limit_words(limit)} ({verdicts.kind(limit.kind)})"))
        column.addWidget(words(_source(limit, household.today), quiet=True))
    column.addWidget(
        words(
            _(
                "These limits bind public supplies. For a private well they are yardsticks: your "
                "health department may advise others."
            ),
            quiet=True,
        )
    )


def _in_order(limits: Sequence[Limit], chosen: Sequence[str], today: date) -> list[Limit]:
    """Those in force in the order of the sets, those to come, then the past ones, newest first."""

    def place(limit: Limit) -> tuple[int, int]:
        if _has_ended(limit, today):
            return 2, 0
        return int(_is_to_come(limit, today)), chosen.index(limit.set)

    return sorted(sorted(limits, key=lambda limit: limit.start, reverse=True), key=place)


def _is_to_come(limit: Limit, today: date) -> bool:
    start = limit.period.start
    return start is not None and today < start.first


def _has_ended(limit: Limit, today: date) -> bool:
    end = limit.period.end
    return end is not None and end.last < today


def _source(limit: Limit, today: date) -> str:
    start, end = partial_words(limit.start), partial_words(limit.end)
    if _is_to_come(limit, today):
        force = _("Not in force yet: from {start}").format(start=start)
    elif start and end:
        force = _("In force from {start} to {end}").format(start=start, end=end)
    elif end:
        force = _("In force until {end}").format(end=end)
    elif start:
        force = _("In force since {start}").format(start=start)
    else:
        force = _("Start not known")
    parts = (force, _(limit.condition), _(limit.note), cited(limit.source))
    return ". ".join(part.rstrip(".") for part in parts if part) + "."
