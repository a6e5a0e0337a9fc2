"""The fields that may be given when a well, a unit, a lab or a plan is written."""

from typing import Literal, TypedDict

from wellbook.book.writer import Writer


class WellFields(TypedDict, total=False):
    """What may be said of a well beside its name; see `rows.Well`."""

    note: str
    address: str
    coordinates: str
    replaces: int | None
    construction: dict[str, str]


class UnitFields(TypedDict, total=False):
    """What may be said of a treatment unit beside its name; see `rows.TreatmentUnit`."""

    kind: str
    place: int
    installed: str
    removed: str
    target: str
    note: str


class LabFields(TypedDict, total=False):
    """What may be said of a lab beside its name; see `rows.Lab`."""

    accreditation: str
    valid_from: str
    valid_to: str
    note: str


class PlanFields(TypedDict, total=False):
    """What may be said of a plan beside its interval; see `rows.Plan`."""

    reason: str
    postponed: str
    postponed_why: str


class WellChanges(WellFields, total=False):
    """What may be changed of a well."""

    name: str


class PointChanges(TypedDict, total=False):
    """What may be changed of a sampling point; see `rows.Point`."""

    name: str
    treated: bool
    place: int
    note: str


class UnitChanges(UnitFields, total=False):
    """What may be changed of a treatment unit."""

    name: str


class EventChanges(TypedDict, total=False):
    """What may be changed of an event; see `rows.Event`."""

    kind: str
    day: str
    until: str
    text: str
    private: bool


Removable = Literal["event", "service", "plan"]
ARTICLE = {"event": "an event", "service": "a service", "plan": "a plan"}


def set_construction(writer: Writer, well: int, items: dict[str, str]) -> None:
    """Make the well's log say just these items; those left out or empty are taken out."""
    wanted = {item: text for item, text in items.items() if text.strip()}
    held = {
        item: (number, text)
        for number, item, text in writer.database.conn.execute(
            "SELECT id, item, text FROM construction WHERE well = ?", (well,)
        )
    }
    for item, (number, _text) in held.items():
        if item not in wanted:
            writer.remove("construction", number)
    for item, text in wanted.items():
        if item in held:
            writer.update("construction", held[item][0], {"text": text})
        else:
            writer.insert("construction", {"well": well, "item": item, "text": text})
