"""The treatment of a well's water: its units, what was done to them, when they were bypassed."""

from PySide6.QtWidgets import QWidget

from wellbook.book.rows import Service, TreatmentUnit
from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.amounts import read_amount
from wellbook.support.errors import Fault
from wellbook.support.translation import _, pgettext
from wellbook.water.sampling.upkeep import METER
from wellbook.window.common.household import Household
from wellbook.window.common.typed_days import read_partial
from wellbook.window.common.words import partial_words
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values
from wellbook.window.dialogs.upkeep_dialogs import cost_fields, meter_field, taken_cost
from wellbook.window.pages.well import well_fields as fields
from wellbook.window.widgets.section_view import Section, Told
from wellbook.window.widgets.table_model import Column
from wellbook.wording import vocabulary


def sections(household: Household) -> tuple[Section, ...]:
    """Units, then services and bypasses."""
    return (_units(household), _services(household))


def _units(household: Household) -> Section:
    book = household.book

    def edit(well: int, row: TreatmentUnit | None, window: QWidget) -> FieldsDialog:
        def write(values: Values) -> str:
            name = values.pop("name")
            if not name:
                raise Fault(_("A unit needs a name."))
            facts = {
                **taken_cost(values),
                **values,
                "place": int(values["place"]),
                "target": _target_keys(household, values["target"]),
                **{key: read_partial(values[key]) for key in ("installed", "removed")},
            }
            if row is None:
                book.add_unit(well, name, **facts)  # type: ignore[arg-type]
            else:
                book.change_unit(row.id, name=name, **facts)  # type: ignore[arg-type]
            return _("The unit {name} is kept.").format(name=name)

        following = max((unit.place for unit in book.units(well)), default=0) + 1
        shown = _with_names(household, row) if row else None
        return FieldsDialog(
            (_("A treatment unit"), _("Keep the unit")),
            [*fields.of_unit(shown, following), *_paid(household, row)],
            write,
            window,
        )

    return Section(
        _("Treatment units"),
        _(
            "In the order of the flow. A unit treats the water of every point that stands further "
            "on, between the days on which it was installed and removed."
        ),
        (
            Column(pgettext("treatment", "Unit"), lambda row: row.name),
            Column(
                _("Kind"),
                lambda row: vocabulary.treatment(row.kind),
            ),
            Column(_("Place"), lambda row: str(row.place)),
            Column(_("In use"), _in_use),
            Column(
                _("Meant for"),
                lambda row: _target_names(household, row.target),
            ),
            Column(_("Remark"), lambda row: row.note),
        ),
        book.units,
        lambda row: row.id,
        edit,
        stays=_("A unit stays: say on which day it was removed."),
        stretch=5,
    )


def _in_use(row: TreatmentUnit) -> str:
    first = partial_words(row.installed) or "…"
    return f"{first} – {partial_words(row.removed)}" if row.removed else f"{first} –"


def _with_names(household: Household, row: TreatmentUnit) -> TreatmentUnit:
    from dataclasses import replace

    return replace(row, target=_target_names(household, row.target))


def _target_names(household: Household, target: str) -> str:
    known = household.catalogue.parameters
    return ", ".join(known[key].name if key in known else key for key in target.split())


def _target_keys(household: Household, text: str) -> str:
    keys = []
    for name in filter(None, map(str.strip, text.split(","))):
        found = household.catalogue.find(name)
        if found is None:
            raise Fault(
                _(
                    "“{name}” is no parameter that Wellbook knows: write it as the overview does."
                ).format(name=name)
            )
        keys.append(found.key)
    return " ".join(keys)


def _services(household: Household) -> Section:
    book = household.book

    def edit(well: int, told: Told | None, window: QWidget) -> FieldsDialog:
        row: Service | None = told.fact if told else None
        units = {str(unit.id): unit.name for unit in book.units(well)}

        def write(values: Values) -> str:
            if not values["unit"]:
                raise Fault(_("Add the treatment unit first."))
            day, until = read_partial(values["day"]), read_partial(values["until"])
            kind = values["kind"]
            if not day or not kind:
                raise Fault(_("Say what was done and on which day."))
            meter = read_amount(values["meter"])
            if kind == METER and not meter:
                raise Fault(_("Say what the meter shows."))
            said = {"until": until, "text": values["text"], "meter": meter, **taken_cost(values)}
            unit = int(values["unit"])
            if row is None:
                book.add_service(unit, kind, day, **said)
            else:
                book.change_service(row.id, unit=unit, kind=kind, day=day, **said)
            kinds = {one.id: one.kind for one in book.units(well)}
            asked = words.asked_after(household.upkeep.tasks, kinds[unit], kind)
            return " ".join(filter(None, (_("The service is kept."), asked)))

        return FieldsDialog(
            (
                _("Service or bypass"),
                _("Keep the service"),
            ),
            [
                *fields.of_service(row, units),
                meter_field(row.meter if row else ""),
                *_paid(household, row),
            ],
            write,
            window,
        )

    def remove(_unused: int, told: Told) -> str:
        book.remove("service", told.fact.id)
        return _("The service is taken out; “Undo” in the menu Edit brings it back.")

    def rows(well: int) -> list[Told]:
        return [
            Told(done, unit.name)
            for unit in book.units(well)
            for done in reversed(book.services(unit.id))
        ]

    return Section(
        _("Service and bypasses"),
        _(
            "New cartridges, lamps, salt, repairs; and the days on which a unit was bypassed, so "
            "that the water after it was not treated by it."
        ),
        (
            Column(_("When"), lambda row: _when(row.fact), sort=lambda row: row.fact.day),
            Column(pgettext("treatment", "Unit"), lambda row: row.beside),
            Column(
                _("What was done"),
                lambda row: vocabulary.service(row.fact.kind),
            ),
            Column(_("Meter"), lambda row: row.fact.meter),
            Column(_("In your words"), lambda row: row.fact.text),
        ),
        rows,
        lambda row: row.fact.id,
        edit,
        remove,
        stretch=4,
    )


def _paid(household: Household, row: TreatmentUnit | Service | None) -> list[Field]:
    """What it cost."""
    return cost_fields(household, *((row.cost, row.currency) if row else ()))


def _when(row: Service) -> str:
    day = partial_words(row.day)
    if row.until:
        return f"{day} – {partial_words(row.until)}"
    return _("since {day}").format(day=day) if row.kind == "bypass" else day
