"""What the units and the wellhead need, what was seen there, and what water cost."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtWidgets import QWidget

from wellbook.book.rows import (
    Event,
    Expense,
    InspectionAnswer,
    TreatmentUnit,
    UpkeepInterval,
)
from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.costs import by_year
from wellbook.planning.upkeep.due import UpkeepItem, tasks_of, upkeep_items
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext, pgettext
from wellbook.water.sampling.upkeep import Task
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.typed_days import partial_hint, read_partial
from wellbook.window.common.words import partial_words
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values
from wellbook.window.dialogs.upkeep_dialogs import (
    cost_fields,
    done_dialog,
    interval_dialog,
    taken_cost,
)
from wellbook.window.dialogs.wellhead_dialog import WellheadDialog
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.section_view import Section
from wellbook.window.widgets.table_model import Column
from wellbook.wording import vocabulary


@dataclass(frozen=True, slots=True)
class _Interval:
    """A task at a unit, or at the well, with how often it is done."""

    well: int
    unit: TreatmentUnit | None
    task: Task
    months: int
    own: UpkeepInterval | None


@dataclass(frozen=True, slots=True)
class _Answer:
    """A line of an inspection with its event."""

    event: Event
    answer: InspectionAnswer
    name: str


def sections(household: Household, chooser: Chooser) -> tuple[Section, ...]:
    """What is due, how often, what was seen, what it cost."""
    return (
        _due(household, chooser),
        _intervals(household),
        _inspections(household, chooser),
        _costs(household),
    )


def _look(household: Household, chooser: Chooser, well: int, window: QWidget) -> EntryDialog:
    return WellheadDialog(household, window, well=well, chooser=chooser)


def _due(household: Household, chooser: Chooser) -> Section:
    def rows(well: int) -> Sequence[UpkeepItem]:
        found = upkeep_items(household.record, household.upkeep, household.today)
        return [item for item in found if item.well.id == well]

    def edit(well: int, row: UpkeepItem | None, window: QWidget) -> EntryDialog:
        if row is None:
            return _look(household, chooser, well, window)
        return done_dialog(household, row, window, chooser)

    return Section(
        _("Upkeep"),
        _(
            "What the treatment units and the wellhead need, and what an inspection found that is "
            "not put right yet. “Done today…” notes it."
        ),
        (
            Column(_("What"), words.place),
            Column(_("When"), lambda row: words.standing(row, household.today)),
            Column(_("What to do"), lambda row: row.what, tip=words.advice),
            Column(_("Who"), lambda row: row.who),
        ),
        rows,
        lambda row: (row.unit.id if row.unit else 0, row.key, row.is_fault),
        edit,
        stays=_("It goes by itself when it is done; how often is chosen under “Intervals”."),
        stretch=2,
        add=_("Wellhead inspection…"),
        change=_("Done today…"),
    )


def _intervals(household: Household) -> Section:
    def rows(well: int) -> list[_Interval]:
        own = {(one.unit, one.task): one for one in household.record.intervals if one.well == well}
        home = next(one for one in household.record.wells if one.id == well)
        units = [unit for unit in household.record.units_of(well) if not unit.removed]
        found = []
        for unit in (None, *units):
            for task in tasks_of(household.record, household.upkeep, home, unit):
                if task.asked_after:
                    continue  # no interval asks for it
                said = own.get((unit.id if unit else None, task.key))
                months = said.months if said else task.months
                found.append(_Interval(well, unit, task, months, said))
        return found

    def edit(well: int, row: _Interval | None, window: QWidget) -> EntryDialog:
        chosen = row or rows(well)[0]
        number = chosen.unit.id if chosen.unit else None
        return interval_dialog(household, well, number, chosen.task, window)

    def remove(_unused: int, row: _Interval) -> str:
        if row.own is None:
            raise Fault(_("It has the usual interval already."))
        household.book.remove("upkeep_interval", row.own.id)
        return _("It has the usual interval again.")

    return Section(
        _("Intervals"),
        _(
            "How often a part is seen to; 0 months: never. What lasts for so many gallons, litres "
            "or hours is due by the first of time and use. Taking out goes back to the usual."
        ),
        (
            Column(_("What"), _interval_place),
            Column(_("Every"), _every),
            Column(_("Usual"), lambda row: _months(row.task.months)),
            Column(_("Reason"), lambda row: row.own.reason if row.own else ""),
        ),
        rows,
        lambda row: (row.unit.id if row.unit else 0, row.task.key),
        edit,
        remove,
        stretch=3,
        add="",
    )


def _interval_place(row: _Interval) -> str:
    if row.unit is None:
        return row.task.part
    return _("{unit}, {part}").format(unit=row.unit.name, part=row.task.part)


def _every(row: _Interval) -> str:
    if row.own is None or not row.own.use:
        return _months(row.months)
    return _("{months} or {lasts}").format(months=_months(row.months), lasts=row.own.use)


def _months(months: int) -> str:
    if not months:
        return _("never")
    return ngettext("{n} month", "{n} months", months).format(n=months)


def _inspections(household: Household, chooser: Chooser) -> Section:
    book = household.book

    def rows(well: int) -> list[_Answer]:
        names = {item.key: item.name for item in household.upkeep.checklist}
        events = {event.id: event for event in household.record.events_of(well)}
        found = [
            _Answer(events[one.event], one, names.get(one.item, one.item))
            for one in household.record.answers
            if one.event in events
        ]
        return sorted(found, key=lambda row: row.event.day, reverse=True)

    def edit(well: int, row: _Answer | None, window: QWidget) -> EntryDialog:
        if row is None:
            return _look(household, chooser, well, window)
        return WellheadDialog(household, window, well=well, chooser=chooser, event=row.event)

    def remove(_unused: int, row: _Answer) -> str:
        book.remove("event", row.event.id)
        said = _(
            "The whole inspection of {day} is taken out; its photos stay with the well. “Undo” in "
            "the menu Edit brings it back."
        )
        return said.format(day=partial_words(row.event.day))

    return Section(
        _("Inspections"),
        _("What was seen at the wellhead and around it. Photos are among the well’s documents."),
        (
            Column(
                _("When"),
                lambda row: partial_words(row.event.day),
                sort=lambda row: row.event.day,
            ),
            Column(_("What"), lambda row: row.name),
            Column(_("Seen"), lambda row: words.answer(row.answer.answer)),
            Column(_("Put right"), lambda row: partial_words(row.answer.mended)),
            Column(_("In your words"), lambda row: row.answer.text),
        ),
        rows,
        lambda row: row.answer.id,
        edit,
        remove,
        stretch=4,
        add=_("Wellhead inspection…"),
    )


def _costs(household: Household) -> Section:
    book = household.book

    def edit(well: int, row: Expense | None, window: QWidget) -> EntryDialog:
        paid = row or Expense(0, well, household.today.isoformat(), "", "", "")

        def write(values: Values) -> str:
            day, money = read_partial(values["day"]), taken_cost(values)
            if not day or not values["kind"] or not money["cost"]:
                raise Fault(_("Say what was paid for, on which day, and how much."))
            said = {"day": day, "kind": values["kind"], "text": values["text"], **money}
            if row is None:
                book.add_expense(well, **said)
            else:
                book.change_expense(row.id, **said)
            return _("The cost is kept.")

        return FieldsDialog(
            (_("Another cost of water"), _("Keep the cost")),
            [
                Field("kind", _("&What was paid for"), paid.kind, "open", vocabulary.expenses()),
                Field("day", _("&Day"), paid.day, hint=partial_hint()),
                *cost_fields(household, paid.cost, paid.currency),
                Field("text", _("In your w&ords"), paid.text),
            ],
            write,
            window,
        )

    def remove(_unused: int, row: Expense) -> str:
        book.remove("expense", row.id)
        return _("The cost is taken out; “Undo” in the menu Edit brings it back.")

    def sums(_unused: int) -> str:
        return "\n".join(words.cost_lines(by_year(household.record, household.today)))

    return Section(
        pgettext("money", "Costs"),
        _(
            "What water cost, all of it private. Tests, units, services and events carry their "
            "own cost; other costs stand here. The sums are those of the whole book."
        ),
        (
            Column(_("When"), lambda row: partial_words(row.day), sort=lambda row: row.day),
            Column(_("What was paid for"), lambda row: vocabulary.expense(row.kind)),
            Column(_("Cost"), lambda row: f"{row.cost} {row.currency}"),
            Column(_("In your words"), lambda row: row.text),
        ),
        lambda well: [one for one in household.record.expenses if one.well == well],
        lambda row: row.id,
        edit,
        remove,
        stretch=3,
        told=sums,
    )
