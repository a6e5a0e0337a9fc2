"""The price lists of labs, beside the labs."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtWidgets import QWidget

from wellbook.book.rows import Price
from wellbook.support.translation import _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.words import partial_words
from wellbook.window.dialogs.round.price_list_dialog import PriceListDialog
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.section_view import Section
from wellbook.window.widgets.table_model import Column


@dataclass(frozen=True, slots=True)
class _List:
    """The prices of one lab."""

    lab: str
    prices: Sequence[Price]


def sections(household: Household, chooser: Chooser) -> tuple[Section, ...]:
    """The lists of all labs of the book."""

    def rows(_unused: int) -> list[_List]:
        record = household.record
        found = [_List(lab.name, record.prices_of(lab.name)) for lab in record.labs]
        return [one for one in found if one.prices]

    def edit(_unused: int, row: _List | None, window: QWidget) -> EntryDialog:
        return PriceListDialog(household, chooser, window, lab=row.lab if row else "")

    def remove(_unused: int, row: _List) -> str:
        household.book.set_prices(row.lab, ())
        said = _("The price list of {lab} is taken out; “Undo” in the menu Edit brings it back.")
        return said.format(lab=row.lab)

    return (
        Section(
            _("Price lists"),
            _(
                "What labs ask for. From them “What to order…” of the next round finds the least "
                "price for what is due."
            ),
            (
                Column(_("Lab"), lambda row: row.lab),
                Column(_("Prices"), lambda row: str(len(row.prices))),
                Column(_("Oldest price of"), lambda row: partial_words(_oldest(row.prices))),
            ),
            rows,
            lambda row: row.lab,
            edit,
            remove,
            stretch=0,
        ),
    )


def _oldest(prices: Sequence[Price]) -> str:
    return min((price.day for price in prices if price.day), default="")
