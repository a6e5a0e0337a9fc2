"""The fields in which the facts of a well are entered."""

from collections.abc import Mapping

from wellbook.book.rows import Lab, Plan, Point, Service, TreatmentUnit, Well
from wellbook.support.translation import _
from wellbook.window.common.typed_days import partial_hint
from wellbook.window.dialogs.fields_dialog import Field
from wellbook.wording import vocabulary


def of_well(well: Well, others: Mapping[str, str]) -> list[Field]:
    """Fields of a well."""
    return [
        Field("name", _("&Name"), well.name),
        Field("address", _("&Address (private)"), well.address),
        Field("coordinates", _("&Place (private)"), well.coordinates),
        Field(
            "replaces",
            _("&Replaces the well"),
            str(well.replaces or ""),
            "choice",
            others,
            _("A deepened or replaced well is a new well."),
        ),
        Field("note", _("Re&marks"), well.note, "text"),
    ]


def of_log(row: tuple[str, str] | None) -> list[Field]:
    """Fields of an item of the well log."""
    item, text = row or ("", "")
    hint = _("as the log says it, with its unit: 185 ft")
    return [
        Field("item", _("&Item"), item, "open", vocabulary.log_items()),
        Field("text", _("As &written"), text, hint=hint),
    ]


def of_point(row: Point | None, following: int) -> list[Field]:
    """Fields of a sampling point; `following` is the next free place in the flow."""
    place = row.place if row else following
    return [
        Field("name", _("&Name"), row.name if row else ""),
        Field(
            "treated",
            _("The water here has passed &treatment"),
            "1" if row and row.treated else "",
            "check",
        ),
        Field(
            "place",
            _("&Place in the flow"),
            str(place),
            "number",
            hint=_("1 is nearest the well"),
        ),
        Field("note", _("Re&mark"), row.note if row else ""),
    ]


def of_plan(row: Plan | None, points: Mapping[str, str], panels: Mapping[str, str]) -> list[Field]:
    """Fields of a plan; panel and point of an existing one stay."""
    chosen = [
        Field("panel", _("Pa&nel"), next(iter(panels)), "choice", panels),
        Field("point", _("&Point"), next(iter(points), ""), "choice", points),
    ]
    return [
        *([] if row else chosen),
        Field(
            "months",
            _("Every … &months (0: once)"),
            str(row.months if row else 14),
            "number",
        ),
        Field("reason", _("&Reason"), row.reason if row else ""),
    ]


def of_lab(row: Lab | None, usual: str) -> list[Field]:
    """Fields of a lab; the name of a known one stays. `usual` says what vouches for labs here."""
    lab = row or Lab(0, "")
    return [
        *([] if row else [Field("name", _("&Name"))]),
        Field("accreditation", _("&Accreditation"), lab.accreditation, hint=usual),
        Field(
            "valid_from",
            _("Valid &from"),
            lab.valid_from,
            hint=partial_hint(),
        ),
        Field("valid_to", _("Valid &to"), lab.valid_to, hint=partial_hint()),
        Field("note", _("Re&mark"), lab.note),
    ]


def of_unit(row: TreatmentUnit | None, following: int) -> list[Field]:
    """Fields of a treatment unit; `following` is the next free place in the flow."""
    unit = row or TreatmentUnit(0, 0, "", "", following)
    return [
        Field("name", _("&Name"), unit.name),
        Field("kind", _("&Kind"), unit.kind, "open", vocabulary.treatments()),
        Field(
            "place",
            _("&Place in the flow"),
            str(unit.place),
            "number",
            hint=_("It treats the water of every point further on."),
        ),
        Field("installed", _("&Installed"), unit.installed, hint=partial_hint()),
        Field("removed", _("Re&moved"), unit.removed, hint=partial_hint()),
        Field(
            "target",
            _("Meant &for"),
            unit.target,
            hint=_("names of parameters, with commas between"),
        ),
        Field("note", _("Remar&k"), unit.note),
    ]


def of_service(row: Service | None, units: Mapping[str, str]) -> list[Field]:
    """Fields of a service or a bypass."""
    done = row or Service(0, 0, "", "")
    return [
        Field("unit", _("&Unit"), str(done.unit), "choice", units)
        if row
        else Field("unit", _("&Unit"), next(iter(units), ""), "choice", units),
        Field("kind", _("&What was done"), done.kind, "open", vocabulary.services()),
        Field("day", _("&Day"), done.day, hint=partial_hint()),
        Field(
            "until",
            _("Un&til"),
            done.until,
            hint=_("for a bypass; empty while it lasts"),
        ),
        Field("text", _("In your w&ords"), done.text),
    ]
