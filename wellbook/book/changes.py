"""The fields that may be given when a well, a unit, an event and so on is written."""

from collections.abc import Iterable
from dataclasses import fields
from typing import Literal, TypedDict

from wellbook.book.rows import InspectionAnswer, Price
from wellbook.book.writer import Row, Writer
from wellbook.water.values.local_time import LocalTime


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
    cost: str
    currency: str


class ServiceFields(TypedDict, total=False):
    """What may be said of a service beside its kind and day; see `rows.Service`."""

    until: str
    text: str
    cost: str
    currency: str
    meter: str


class IntervalFields(TypedDict, total=False):
    """What may be said of an interval of upkeep beside its months; see `rows.UpkeepInterval`."""

    reason: str
    use: str
    a_day: str


class EventFields(TypedDict, total=False):
    """What may be said of an event beside its kind and day; see `rows.Event`."""

    until: str
    text: str
    private: bool
    cost: str
    currency: str
    flow: str
    flow_unit: str
    hours: str
    drawdown: str
    drawdown_unit: str
    done_by: str


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


class SampleChanges(TypedDict, total=False):
    """What may be corrected of a sample; see `rows.NewSample`."""

    point: int
    collected: LocalTime
    lab: str
    lab_number: str
    dispatched: LocalTime | None
    received: LocalTime | None
    reported: str
    purpose: str
    sampler: str
    standing: str
    draw: str
    temperature: str
    rain: str
    note: str
    cost: str
    currency: str
    awaited: str
    bottles: str
    cooling: str
    parcel: str
    form: str


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


class EventChanges(EventFields, total=False):
    """What may be changed of an event."""

    kind: str
    day: str


class ServiceChanges(ServiceFields, total=False):
    """What may be changed of a service."""

    unit: int
    kind: str
    day: str


class ExpenseChanges(TypedDict, total=False):
    """What may be changed of another cost; see `rows.Expense`."""

    day: str
    kind: str
    cost: str
    currency: str
    text: str


Removable = Literal["event", "service", "plan", "expense", "upkeep_interval", "price"]
ARTICLE = {
    "event": "an event",
    "service": "a service",
    "plan": "a plan",
    "expense": "a cost",
    "upkeep_interval": "an interval of upkeep",
    "price": "a price",
}


def remove_parts_of_event(writer: Writer, event: int) -> None:
    """Take out the answers of an inspection; its documents stay with their well."""
    rows = writer.connection.execute
    for (number,) in rows("SELECT id FROM inspection_answer WHERE event = ?", (event,)).fetchall():
        writer.remove("inspection_answer", number)
    for (number,) in rows("SELECT id FROM attachment WHERE event = ?", (event,)).fetchall():
        writer.update("attachment", number, {"event": None})


def change_inspection(
    writer: Writer, event: int, said: Row, answers: Iterable[InspectionAnswer]
) -> int:
    """Change what was seen at an inspection, line by line; returns the number of its well."""
    rows = writer.connection.execute
    (well,) = rows("SELECT well FROM event WHERE id = ?", (event,)).fetchone()
    writer.update("event", event, said)
    held = dict(rows("SELECT item, id FROM inspection_answer WHERE event = ?", (event,)).fetchall())
    for answer in answers:
        row: Row = {"answer": answer.answer, "text": answer.text, "mended": answer.mended}
        if answer.item in held:
            writer.update("inspection_answer", held.pop(answer.item), row)
        else:
            writer.insert("inspection_answer", {"event": event, "item": answer.item, **row})
    for number in held.values():
        writer.remove("inspection_answer", number)
    return int(well)


def set_prices(writer: Writer, lab: int, prices: Iterable[Price], *, whole: bool) -> None:
    """Make a lab's list say these prices: those and no others if it is the `whole` list."""
    held = dict(
        writer.connection.execute("SELECT name, id FROM price WHERE lab = ?", (lab,)).fetchall()
    )
    for price in prices:
        row: Row = {
            field.name: getattr(price, field.name)
            for field in fields(price)
            if field.name not in {"id", "lab"}
        }
        if price.name in held:
            writer.update("price", held.pop(price.name), row)
        else:
            writer.insert("price", {"lab": lab, **row})
    for number in held.values() if whole else ():
        writer.remove("price", number)


def set_construction(writer: Writer, well: int, items: dict[str, str]) -> None:
    """Make the well's log say just these items; those left out or empty are taken out."""
    wanted = {item: text for item, text in items.items() if text.strip()}
    held = {
        item: (number, text)
        for number, item, text in writer.connection.execute(
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
