"""Noting that something was done to a unit or a well, and how often it is to be done."""

from PySide6.QtWidgets import QWidget

from wellbook.book.rows import UpkeepInterval
from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.amounts import read_amount, read_use
from wellbook.planning.upkeep.costs import usual_currency
from wellbook.planning.upkeep.due import UpkeepItem
from wellbook.planning.upkeep.mending import mended_by, unmended
from wellbook.support.errors import Fault
from wellbook.support.money import CURRENCIES, read_cost
from wellbook.support.translation import _, ngettext
from wellbook.water.sampling.upkeep import Task
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.typed_days import partial_hint, read_partial
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values
from wellbook.window.dialogs.wellhead_dialog import WellheadDialog
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.wording import vocabulary

LOOK = "wellhead"  # the task that the checklist belongs to


def cost_fields(household: Household, cost: str = "", currency: str = "") -> list[Field]:
    """What it cost, and in which currency; the one used last is offered first."""
    code = currency or usual_currency(household.record)
    offered = {known: known for known in dict.fromkeys((*filter(None, [code]), *CURRENCIES))}
    return [
        Field("cost", _("Co&st (private)"), cost),
        Field("currency", _("Currenc&y"), code, "open", offered),
    ]


def meter_field(shown: str = "") -> Field:
    """What the meter of a unit shows."""
    return Field("meter", _("&Meter"), shown, hint=_("if it has one, such as 12400 gal or 8100 h"))


def taken_cost(values: Values) -> dict[str, str]:
    """Cost and currency taken out of what was typed, as they are kept.

    Raises:
        Fault: It can't be read.
    """
    cost, currency = read_cost(values.pop("cost"), values.pop("currency"))
    return {"cost": cost, "currency": currency}


def done_dialog(
    household: Household, item: UpkeepItem, parent: QWidget, chooser: Chooser
) -> EntryDialog:
    """The dialog that says something was done: today, unless another day is typed."""
    if item.is_fault:
        return _mended_dialog(household, item, parent)
    if item.key == LOOK:
        return WellheadDialog(household, parent, well=item.well.id, chooser=chooser)
    book, today = household.book, household.today.isoformat()

    def write(values: Values) -> str:
        day = read_partial(values["day"])
        if not day:
            raise Fault(_("Say on which day it was done."))
        money, text = taken_cost(values), values["text"]
        if item.unit is None:
            cost, currency = money["cost"], money["currency"]
            well, kind = item.well.id, item.done_as
            book.add_event(well, kind, day, text=text, cost=cost, currency=currency)
        else:
            meter = read_amount(values["meter"])
            book.add_service(item.unit.id, item.done_as, day, text=text, meter=meter, **money)
        return _("{place}: kept as done.").format(place=words.place(item))

    said = vocabulary.service if item.unit else vocabulary.event_in_full
    return FieldsDialog(
        (words.place(item), _("Keep as done")),
        [
            Field("day", _("&Day"), today, hint=partial_hint()),
            *([meter_field()] if item.unit else []),
            *cost_fields(household),
            Field("text", _("In your w&ords")),
        ],
        write,
        parent,
        intro=_("It is kept as: {kind}. {advice}").format(
            kind=said(item.done_as), advice=words.advice(item)
        ),
    )


def _mended_dialog(household: Household, item: UpkeepItem, parent: QWidget) -> EntryDialog:
    book = household.book

    def write(values: Values) -> str:
        day = read_partial(values["day"])
        if not day:
            raise Fault(_("Say on which day it was put right."))
        bad = unmended(household.record, item.well).get(item.key, ())
        with book.together(as_one="mend what was found"):
            for number in mended_by(bad, day):
                book.mend(number, day)
        return _("{place}: kept as put right.").format(place=words.place(item))

    return FieldsDialog(
        (words.place(item), _("Keep as put right")),
        [Field("day", _("&Put right on"), household.today.isoformat(), hint=partial_hint())],
        write,
        parent,
        intro=" ".join((words.head(item, household.today), words.advice(item))),
    )


def interval_dialog(
    household: Household, well: int, unit: int | None, task: Task, parent: QWidget
) -> EntryDialog:
    """How often a task is done at a unit, or at the well itself."""
    own = next(
        (
            one
            for one in household.record.intervals
            if (one.well, one.unit, one.task) == (well, unit, task.key)
        ),
        None,
    )

    def write(values: Values) -> str:
        months, reason = int(values["months"]), values["reason"]
        use = read_use(values.get("use", ""), values.get("a_day", ""), months, task.measured)
        household.book.set_interval(well, task.key, months, unit=unit, reason=reason, **use)
        return _("The interval is kept.")

    return FieldsDialog(
        (_("How often: {part}").format(part=task.part), _("Keep the interval")),
        [
            Field(
                "months",
                _("Every … &months (0: never)"),
                str(own.months if own else task.months),
                "number",
            ),
            *(_use_fields(own) if unit else ()),
            Field("reason", _("&Reason"), own.reason if own else ""),
        ],
        write,
        parent,
        intro=_usual(task),
    )


def _use_fields(own: UpkeepInterval | None) -> tuple[Field, ...]:
    """What lasts for so many gallons, litres or hours."""
    return (
        Field(
            "use",
            _("or when it has &lasted"),
            own.use if own else "",
            hint=_("as its label says, such as 1000 gal or 9000 h"),
        ),
        Field(
            "a_day",
            _("Used a &day"),
            own.a_day if own else "",
            hint=_("about, such as 12 gal; where no meter is read"),
        ),
    )


def _usual(task: Task) -> str:
    """What is done, how often that is usual, and how long it lasts by use."""
    said = _("{task} Usual: every {n} to {latest} months ({source}).")
    if task.latest <= task.months:
        said = ngettext(
            "{task} Usual: every {n} month ({source}).",
            "{task} Usual: every {n} months ({source}).",
            task.months,
        )
    every = said.format(task=task.task, n=task.months, latest=task.latest, source=task.source)
    return f"{every} {task.use}".rstrip()
