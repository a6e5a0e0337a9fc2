"""The fields in which the facts of a well are entered."""

from collections.abc import Mapping

from PySide6.QtCore import QCoreApplication

from wellbook.book.rows import Lab, Plan, Point, Service, TreatmentUnit, Well
from wellbook.window.common.typed_days import partial_hint
from wellbook.window.dialogs.fields_dialog import Field

translate = QCoreApplication.translate


def log_items() -> dict[str, str]:
    """Usual items of a well log, as they are kept and as they are shown."""
    return {
        "drilled": translate("WellFields", "drilled"),
        "driller": translate("WellFields", "driller"),
        "permit": translate("WellFields", "permit"),
        "kind": translate("WellFields", "kind of well"),
        "depth": translate("WellFields", "depth"),
        "diameter": translate("WellFields", "diameter"),
        "casing": translate("WellFields", "casing"),
        "casing above ground": translate("WellFields", "casing above ground"),
        "screen": translate("WellFields", "screen"),
        "grout": translate("WellFields", "grout"),
        "rock": translate("WellFields", "rock and soil"),
        "static level": translate("WellFields", "static water level"),
        "pumping level": translate("WellFields", "pumping water level"),
        "yield": translate("WellFields", "yield"),
        "pump": translate("WellFields", "pump"),
        "pump set at": translate("WellFields", "pump set at"),
        "pressure tank": translate("WellFields", "pressure tank"),
        "cap": translate("WellFields", "cap"),
        "distance to septic system": translate("WellFields", "distance to septic system"),
    }


def unit_kinds() -> dict[str, str]:
    """Kinds of treatment, as they are kept and as they are shown."""
    return {
        "sediment filter": translate("WellFields", "sediment filter"),
        "ion exchange softener": translate("WellFields", "ion exchange softener"),
        "carbon filter": translate("WellFields", "carbon filter"),
        "reverse osmosis": translate("WellFields", "reverse osmosis"),
        "ultraviolet lamp": translate("WellFields", "ultraviolet lamp"),
        "iron filter": translate("WellFields", "iron filter"),
        "neutralizer": translate("WellFields", "neutralizer"),
        "anion exchange": translate("WellFields", "anion exchange"),
        "arsenic filter": translate("WellFields", "arsenic filter"),
        "aeration": translate("WellFields", "aeration"),
        "chlorination": translate("WellFields", "chlorination"),
    }


def service_kinds() -> dict[str, str]:
    """What is done to a treatment unit, as it is kept and as it is shown."""
    return {
        "bypass": translate("WellFields", "bypassed"),
        "cartridge": translate("WellFields", "new cartridge"),
        "media": translate("WellFields", "new media"),
        "membrane": translate("WellFields", "new membrane"),
        "lamp": translate("WellFields", "new lamp"),
        "salt": translate("WellFields", "salt filled up"),
        "sanitised": translate("WellFields", "sanitised"),
        "repair": translate("WellFields", "repaired"),
        "setting": translate("WellFields", "setting changed"),
    }


def of_well(well: Well, others: Mapping[str, str]) -> list[Field]:
    """Fields of a well."""
    return [
        Field("name", translate("WellFields", "&Name"), well.name),
        Field("address", translate("WellFields", "&Address (private)"), well.address),
        Field("coordinates", translate("WellFields", "&Place (private)"), well.coordinates),
        Field(
            "replaces",
            translate("WellFields", "&Replaces the well"),
            str(well.replaces or ""),
            "choice",
            others,
            translate("WellFields", "A deepened or replaced well is a new well."),
        ),
        Field("note", translate("WellFields", "Re&marks"), well.note, "text"),
    ]


def of_log(row: tuple[str, str] | None) -> list[Field]:
    """Fields of an item of the well log."""
    item, text = row or ("", "")
    hint = translate("WellFields", "as the log says it, with its unit: 185 ft")
    return [
        Field("item", translate("WellFields", "&Item"), item, "open", log_items()),
        Field("text", translate("WellFields", "As &written"), text, hint=hint),
    ]


def of_point(row: Point | None, following: int) -> list[Field]:
    """Fields of a sampling point; `following` is the next free place in the flow."""
    place = row.place if row else following
    return [
        Field("name", translate("WellFields", "&Name"), row.name if row else ""),
        Field(
            "treated",
            translate("WellFields", "The water here has passed &treatment"),
            "1" if row and row.treated else "",
            "check",
        ),
        Field(
            "place",
            translate("WellFields", "&Place in the flow"),
            str(place),
            "number",
            hint=translate("WellFields", "1 is nearest the well"),
        ),
        Field("note", translate("WellFields", "Re&mark"), row.note if row else ""),
    ]


def of_plan(row: Plan | None, points: Mapping[str, str], panels: Mapping[str, str]) -> list[Field]:
    """Fields of a plan; panel and point of an existing one stay."""
    chosen = [
        Field("panel", translate("WellFields", "Pa&nel"), next(iter(panels)), "choice", panels),
        Field("point", translate("WellFields", "&Point"), next(iter(points), ""), "choice", points),
    ]
    return [
        *([] if row else chosen),
        Field(
            "months",
            translate("WellFields", "Every … &months (0: once)"),
            str(row.months if row else 14),
            "number",
        ),
        Field("reason", translate("WellFields", "&Reason"), row.reason if row else ""),
    ]


def of_lab(row: Lab | None) -> list[Field]:
    """Fields of a lab; the name of a known one stays."""
    lab = row or Lab(0, "")
    return [
        *([] if row else [Field("name", translate("WellFields", "&Name"))]),
        Field("accreditation", translate("WellFields", "&Accreditation"), lab.accreditation),
        Field(
            "valid_from",
            translate("WellFields", "Valid &from"),
            lab.valid_from,
            hint=partial_hint(),
        ),
        Field("valid_to", translate("WellFields", "Valid &to"), lab.valid_to, hint=partial_hint()),
        Field("note", translate("WellFields", "Re&mark"), lab.note),
    ]


def of_unit(row: TreatmentUnit | None, following: int) -> list[Field]:
    """Fields of a treatment unit; `following` is the next free place in the flow."""
    unit = row or TreatmentUnit(0, 0, "", "", following)
    return [
        Field("name", translate("WellFields", "&Name"), unit.name),
        Field("kind", translate("WellFields", "&Kind"), unit.kind, "open", unit_kinds()),
        Field(
            "place",
            translate("WellFields", "&Place in the flow"),
            str(unit.place),
            "number",
            hint=translate("WellFields", "It treats the water of every point further on."),
        ),
        Field(
            "installed", translate("WellFields", "&Installed"), unit.installed, hint=partial_hint()
        ),
        Field("removed", translate("WellFields", "Re&moved"), unit.removed, hint=partial_hint()),
        Field(
            "target",
            translate("WellFields", "Meant &for"),
            unit.target,
            hint=translate("WellFields", "names of parameters, with commas between"),
        ),
        Field("note", translate("WellFields", "Remar&k"), unit.note),
    ]


def of_service(row: Service | None, units: Mapping[str, str]) -> list[Field]:
    """Fields of a service or a bypass."""
    done = row or Service(0, 0, "", "")
    return [
        Field("unit", translate("WellFields", "&Unit"), str(done.unit), "choice", units)
        if row
        else Field(
            "unit", translate("WellFields", "&Unit"), next(iter(units), ""), "choice", units
        ),
        Field(
            "kind", translate("WellFields", "&What was done"), done.kind, "open", service_kinds()
        ),
        Field("day", translate("WellFields", "&Day"), done.day, hint=partial_hint()),
        Field(
            "until",
            translate("WellFields", "Un&til"),
            done.until,
            hint=translate("WellFields", "for a bypass; empty while it lasts"),
        ),
        Field("text", translate("WellFields", "In your w&ords"), done.text),
    ]
