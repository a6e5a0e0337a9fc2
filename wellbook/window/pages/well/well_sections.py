"""What is said of a well itself: its facts, its log, its points, its labs and its plans."""

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from wellbook.book.record import covers
from wellbook.book.rows import Lab, Plan, Point, Well
from wellbook.planning.place.whom_to_ask import of_labs
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.window.common.household import Household
from wellbook.window.common.typed_days import read_partial
from wellbook.window.common.words import day_words, partial_words
from wellbook.window.dialogs.fields_dialog import FieldsDialog, Values
from wellbook.window.pages.well import well_fields as fields
from wellbook.window.widgets.section_view import Section, Told
from wellbook.window.widgets.table_model import Column
from wellbook.wording import vocabulary


def sections(household: Household) -> tuple[Section, ...]:
    """The sections in the order in which they stand on the page."""
    return (_log(household), _points(household), _plans(household), _labs(household))


def about(household: Household, well: Well) -> str:
    """Note, address and predecessor of a well in one line."""
    names = {one.id: one.name for one in household.book.wells()}
    replaced = _("It replaces {name}.").format(name=names.get(well.replaces or 0, ""))
    return " · ".join(filter(None, (well.note, well.address, replaced if well.replaces else "")))


def facts_dialog(household: Household, number: int, window: QWidget) -> FieldsDialog:
    """The dialog for a well's name, place and remarks."""
    wells = household.book.wells()
    well = next(one for one in wells if one.id == number)

    def write(values: Values) -> str:
        if not values["name"]:
            raise Fault(_("A well needs a name."))
        household.book.change_well(
            number,
            name=values["name"],
            address=values["address"],
            coordinates=values["coordinates"],
            note=values["note"],
            replaces=int(values["replaces"] or 0) or None,
        )
        return _("{name} is changed.").format(name=values["name"])

    others = {"": "", **{str(one.id): one.name for one in wells if one.id != number}}
    return FieldsDialog(
        (_("The well"), _("Keep")),
        fields.of_well(well, others),
        write,
        window,
        intro=_("Address and place go into a history that is handed on only if you tick it."),
    )


def _log(household: Household) -> Section:
    book = household.book

    def items(well: int) -> dict[str, str]:
        return dict(next(one.construction for one in book.wells() if one.id == well))

    def edit(well: int, row: tuple[str, str] | None, window: QWidget) -> FieldsDialog:
        def write(values: Values) -> str:
            item, text = values["item"], values["text"]
            if not item or not text:
                raise Fault(_("Name the item and write what the log says."))
            said = items(well)
            if row is None and item in said:
                raise Fault(_("The log has {item} already.").format(item=item))
            if row is not None and item != row[0]:
                del said[row[0]]
            book.change_well(well, construction={**said, item: text})
            return _("{item} is kept in the well log.").format(item=item)

        title = _("An item of the well log")
        return FieldsDialog((title, _("Keep the item")), fields.of_log(row), write, window)

    def remove(well: int, row: tuple[str, str]) -> str:
        book.change_well(well, construction={k: v for k, v in items(well).items() if k != row[0]})
        return _taken_out(row[0])

    return Section(
        _("Well log"),
        _(
            "How the well was made, in the words and units of the driller’s log, and what else "
            "belongs to it: its upkeep asks after a septic system, a gas detector, a backflow "
            "preventer that stands here."
        ),
        (
            Column(_("Item"), lambda row: vocabulary.log_item(row[0])),
            Column(_("As written"), lambda row: row[1]),
        ),
        lambda well: tuple(items(well).items()),
        lambda row: row[0],
        edit,
        remove,
    )


def _points(household: Household) -> Section:
    book = household.book

    def edit(well: int, row: Point | None, window: QWidget) -> FieldsDialog:
        def write(values: Values) -> str:
            if not values["name"]:
                raise Fault(_("A point needs a name."))
            name, note = values["name"], values["note"]
            treated, place = bool(values["treated"]), int(values["place"])
            if row is None:
                book.add_point(well, name, treated=treated, place=place, note=note)
            else:
                book.change_point(row.id, name=name, treated=treated, place=place, note=note)
            return _("The point {name} is kept.").format(name=name)

        following = max((point.place for point in book.points(well)), default=0) + 1
        return FieldsDialog(
            (_("A sampling point"), _("Keep the point")),
            fields.of_point(row, following),
            write,
            window,
        )

    return Section(
        _("Sampling points"),
        _("Where samples are drawn, in the order of the flow from the well."),
        (
            Column(_("Point"), lambda row: row.name),
            Column(
                _("Water"),
                lambda row: _("treated") if row.treated else _("untreated"),
            ),
            Column(_("Place in the flow"), lambda row: str(row.place)),
            Column(_("Remark"), lambda row: row.note),
        ),
        book.points,
        lambda row: row.id,
        edit,
        stays=_("A point stays, because tests belong to it."),
        stretch=3,
    )


def _plans(household: Household) -> Section:
    book, catalogue = household.book, household.catalogue
    names = {key: panel.name for key, panel in catalogue.panels.items()}

    def points(well: int) -> dict[str, str]:
        return {str(point.id): point.name for point in book.points(well)}

    def edit(well: int, told: Told | None, window: QWidget) -> FieldsDialog:
        row: Plan | None = told.fact if told else None

        def write(values: Values) -> str:
            point = int(values.get("point") or (row.point if row else 0))
            panel = values.get("panel") or (row.panel if row else "")
            if not point:
                raise Fault(_("Name a sampling point first."))
            book.set_plan(point, panel, int(values["months"]), reason=values["reason"])
            return _("The plan for {panel} is kept.").format(panel=names[panel])

        title = names.get(row.panel, row.panel) if row else _("Plan a panel")
        return FieldsDialog(
            (title, _("Keep the plan")),
            fields.of_plan(row, points(well), names),
            write,
            window,
            intro=_advised(household, row),
        )

    def remove(_unused: int, told: Told) -> str:
        book.remove("plan", told.fact.id)
        return _taken_out(names.get(told.fact.panel, told.fact.panel))

    def rows(well: int) -> list[Told]:
        return [
            Told(plan, point.name)
            for point in book.points(well)
            for plan in book.plans(point.id)
            if plan.panel in names
        ]

    return Section(
        _("Plans"),
        _(
            "How often a panel is tested at a point. A plan is for its own panel: the other usual "
            "ones stay due as they are without it."
        ),
        (
            Column(_("Panel"), lambda row: names.get(row.fact.panel, row.fact.panel)),
            Column(_("Point"), lambda row: row.beside),
            Column(_("Every"), lambda row: _interval(row.fact)),
            Column(_("Reason"), lambda row: _plan_reason(row.fact)),
        ),
        rows,
        lambda row: row.fact.id,
        edit,
        remove,
        stretch=3,
    )


def _interval(row: Plan) -> str:
    if not row.months:
        return _("once")
    return ngettext("{n} month", "{n} months", row.months).format(n=row.months)


def _plan_reason(row: Plan) -> str:
    put_off = _("put off to {day} ({why})").format(
        day=partial_words(row.postponed), why=row.postponed_why or "–"
    )
    return "; ".join(filter(None, (row.reason, put_off if row.postponed else "")))


def _advised(household: Household, row: Plan | None) -> str:
    panel = household.catalogue.panels.get(row.panel) if row else None
    if panel is None or not panel.months:
        return ""
    said = _("Advised: every {months} months ({source}).")
    return said.format(months=panel.months, source=panel.source)


def _labs(household: Household) -> Section:
    book = household.book

    def edit(_unused: int, told: Told | None, window: QWidget) -> FieldsDialog:
        row: Lab | None = told.fact if told else None

        def write(values: Values) -> str:
            name = values.pop("name", row.name if row else "")
            if not name:
                raise Fault(_("A lab needs a name."))
            days = {key: read_partial(values.pop(key)) for key in ("valid_from", "valid_to")}
            book.add_lab(name, **values, **days)
            return _("The lab {name} is kept.").format(name=name)

        title = row.name if row else _("A lab")
        return FieldsDialog(
            (title, _("Keep the lab")),
            fields.of_lab(row, of_labs(household.record.settings)),
            write,
            window,
        )

    return Section(
        _("Labs"),
        _("Labs that tested this book’s samples, and what they were accredited for."),
        (
            Column(_("Lab"), lambda row: row.fact.name),
            Column(_("Accreditation"), lambda row: row.fact.accreditation),
            Column(_("Valid"), lambda row: _validity(row.fact)),
            Column(_("Look at"), lambda row: row.beside),
        ),
        lambda _unused: [Told(lab, run_out_words(household, lab)) for lab in book.labs()],
        lambda row: row.fact.id,
        edit,
        stays=_("A lab stays, because tests belong to it."),
        stretch=3,
    )


def _validity(row: Lab) -> str:
    if not (row.valid_from or row.valid_to):
        return ""
    ends = (partial_words(row.valid_from), partial_words(row.valid_to))
    return " – ".join(end or "…" for end in ends)


def run_out_words(household: Household, lab: Lab) -> str:
    """Days on which samples went to a lab outside the days of its accreditation."""
    days = sorted({s.collected.day for s in household.book.samples() if s.lab == lab.name})
    outside = [day for day in days if covers(lab, day) is False]
    if not outside:
        return ""
    said = _("not valid on the day of tests: {days}")
    return said.format(days=_listed([day_words(day) for day in outside]))


def _listed(days: Sequence[str], most: int = 3) -> str:
    return ", ".join([*days[:most], *(["…"] if len(days) > most else [])])


def _taken_out(what: str) -> str:
    said = _("{what} is taken out; “Undo” in the menu Edit brings it back.")
    return said.format(what=what)
