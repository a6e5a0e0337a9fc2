"""What is entered while samples are on their way: that they were drawn, what the lab tells."""

from collections.abc import Sequence
from datetime import date, time

from PySide6.QtWidgets import QWidget

from wellbook.book.rows import NewSample, Point, Sample
from wellbook.intake.by_telephone import awaited_bacteria, keep_finding, told_before, withdraw
from wellbook.planning.lab.awaited import NewDraw, awaited, draws
from wellbook.planning.lab.lab_route import read_habits
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext, pgettext
from wellbook.water.values.local_time import LocalTime
from wellbook.window.common.household import Household
from wellbook.window.common.typed_days import read_partial
from wellbook.window.common.words import moment_words
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values

_ISO_DAY = 10  # letters of a whole day
_FOUND = ("e_coli", "total_coliform")


def drawn_dialog(
    household: Household, planned: Sequence[tuple[Point, Sequence[str]]], parent: QWidget
) -> FieldsDialog:
    """Ask when a round was drawn and how it travels; its samples are awaited from then on."""
    habits = read_habits(household.record.settings)

    def write(values: Values) -> str:
        draw = NewDraw(
            _day(values["day"]), _hour(values["at"]), _hour(values["sent_at"]), values["lab"],
            values["bottles"], values["cooling"], values["parcel"], values["form"],
        )  # fmt: skip
        made = draws(household.record, household.catalogue, draw, planned)
        household.book.add_samples(made)
        said = ngettext(
            "{n} sample is on its way.", "{n} samples are on their way.", len(made)
        ).format(n=len(made))
        told = awaited(household.book.record(), household.catalogue, household.today)
        old = [next(one.lines()) for one in told if one.is_too_old]
        return " ".join((said, *old))

    cold = {
        "": "",
        "ice": pgettext("kept cold by", "ice"),
        "cold packs": pgettext("kept cold by", "cold packs"),
        "none": pgettext("kept cold by", "nothing"),
    }
    names = ", ".join(point.name for point, _keys in planned)
    return FieldsDialog(
        (_("A round that was drawn"), _("It is on its way")),
        (
            Field("day", _("&Drawn on"), household.today.isoformat(), hint="2026-06-09"),
            Field("at", _("Drawn &at"), hint="07:10"),
            Field("sent_at", _("&Sent off that day at"), hint="16:30"),
            Field("lab", _("&Lab"), habits.lab),
            Field("bottles", _("&Bottles"), hint=_("those of the round, if left empty")),
            Field("cooling", _("Kept &cold by"), "ice", "choice", cold),
            Field("parcel", _("Number of the &parcel (private)")),
            Field("form", _("Number of the lab’s &form")),
        ),
        write,
        parent,
        intro=_("Drawn at: {names}. Each is awaited until its report is stored.").format(
            names=names
        ),
    )


def telephone_dialog(household: Household, parent: QWidget) -> FieldsDialog:
    """Ask what bacteria a lab told of before its report."""
    known = household.catalogue.parameters
    owed = {str(one.id): one for one in awaited_bacteria(household.book)}
    places = {point.id: point.name for point in household.record.points}
    labels = {
        key: f"{places[one.point]}, {moment_words(one.collected)}" for key, one in owed.items()
    }

    standing = {str(one.id): (sample, one) for sample, one in told_before(household.book)}
    withdrawable = {
        key: f"{one.name}, {places[sample.point]}, {moment_words(sample.collected)}"
        for key, (sample, one) in standing.items()
    }

    def write(values: Values) -> str:
        told = [key for key in _FOUND if values[key]]
        taken_back = values.get("withdrawn", "")
        if taken_back and told:
            raise Fault(_("Keep what was found first, then what was withdrawn."))
        if taken_back:
            withdraw(household.book, standing[taken_back][1])
            said = _("Withdrawn by the lab: {name}. It stays to read, and counts no more.")
            return said.format(name=standing[taken_back][1].name)
        if not told:
            raise Fault(_("Tick what the lab says it found. That nothing was found waits for the "
                          "report."))  # fmt: skip
        sample: Sample | NewSample = (
            owed[values["sample"]] if owed else _new(household, values["point"], values["day"])
        )
        with household.book.together():
            for key in told:
                keep_finding(household.book, household.catalogue, key, "present", sample)
                if isinstance(sample, NewSample):
                    sample = awaited_bacteria(household.book)[0]
        return _("Kept as preliminary: {names}. What is to be done stands on the overview.").format(
            names=", ".join(known[key].name for key in told)
        )

    points = {str(number): name for number, name in places.items()}
    where = (
        [Field("sample", _("&Sample"), next(iter(labels)), "choice", labels)]
        if owed
        else [
            Field("point", _("&Point"), next(iter(points), ""), "choice", points),
            Field("day", _("&Drawn on"), hint="2026-06-09"),
        ]
    )
    found = [
        Field("e_coli", _("&E. coli found"), kind="check"),
        Field("total_coliform", _("&Total coliform found"), kind="check"),
    ]
    nothing = {"": _("nothing")}
    back = [Field("withdrawn", _("The lab &withdraws"), "", "choice", {**nothing, **withdrawable})]
    return FieldsDialog(
        (_("What the lab told by telephone"), _("Keep as preliminary")),
        (*where, *found, *(back if standing else [])),
        write,
        parent,
        intro=_("It counts at once, and is completed by the report."),
    )


def _new(household: Household, point: str, day: str) -> NewSample:
    if not point:
        raise Fault(_("Name a sampling point first (menu Record)."))
    lab = read_habits(household.record.settings).lab
    return NewSample(int(point), LocalTime(_day(day)), lab=lab)


def _day(text: str) -> date:
    typed = read_partial(text)
    if len(typed) != _ISO_DAY:
        raise Fault(_("Write the day of the draw like 2026-06-09."))
    return date.fromisoformat(typed)


def _hour(text: str) -> time | None:
    if not text:
        return None
    try:
        return time.fromisoformat(text.zfill(5))
    except ValueError as error:
        raise Fault(_("Write the hour like 07:10.")) from error
