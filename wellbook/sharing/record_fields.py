"""Every field of the record, declared once.

A declaration drives the exported table with its dictionary, the record as JSON in both directions,
and what a correction and the journal call the field. Those of labs are in `lab_fields`.
"""

from wellbook.book.rows import (
    Event,
    NewResult,
    NewSample,
    Plan,
    Point,
    Service,
    TreatmentUnit,
    Well,
)
from wellbook.sharing.fields import Field, Table
from wellbook.sharing.lab_fields import LABS, PRICES
from wellbook.sharing.upkeep_fields import ANSWERS, COST, EXPENSES, FLOW, INTERVALS, METER
from wellbook.support.translation import N_

WELLS = Table(
    "well",
    "wells.csv",
    N_("One row for each well"),
    (
        Field("well", "Number of the well in its book", at="id", is_number=True),
        Field("name", "Name of the well", label=N_("name"), is_free=True),
        Field("replaces", "Number of the well that this one replaced or deepened", is_number=True),
        Field("note", "The household's words", label=N_("remark"), is_free=True),
        Field("address", "Address (personal)", label=N_("address"), is_personal=True),
        Field(
            "coordinates",
            "Coordinates as entered (personal)",
            label=N_("place on the map"),
            is_personal=True,
        ),
    ),
    Well,
)
CONSTRUCTION = Table(
    "construction",
    "construction.csv",
    N_("One row for each item of a well’s log"),
    (
        Field("well", "Number of the well", is_number=True),
        Field("item", "What is described, e.g. depth, casing", is_free=True),
        Field("text", "As written in the well log, with its unit", label=N_("text"), is_free=True),
    ),
)
POINTS = Table(
    "point",
    "points.csv",
    N_("One row for each sampling point"),
    (
        Field("point", "Number of the sampling point", at="id", is_number=True),
        Field("well", "Number of the well", is_number=True),
        Field("name", "Name of the point", label=N_("name"), is_free=True),
        Field("treated", "yes: the water there has passed treatment; no: it has not"),
        Field("place", "Place in the flow, 1 nearest the well", label=N_("place in the flow")),
        Field("note", "The household's words", label=N_("remark"), is_free=True),
    ),
    Point,
)
UNITS = Table(
    "treatment_unit",
    "units.csv",
    N_("One row for each treatment unit"),
    (
        Field("unit", "Number of the treatment unit", at="id", is_number=True),
        Field("well", "Number of the well", is_number=True),
        Field("name", "Name of the unit", label=N_("name"), is_free=True),
        Field("kind", "Kind of unit", label=N_("kind")),
        Field(
            "place",
            "It treats the points whose place in the flow is greater",
            label=N_("place in the flow"),
        ),
        Field(
            "installed", "Day, month or year it was installed", "ISO 8601", label=N_("installed")
        ),
        Field(
            "removed",
            "Day, month or year it was removed; empty while in use",
            "ISO 8601",
            label=N_("removed"),
        ),
        Field(
            "target",
            "Keys of the parameters it is meant to remove, separated by spaces",
            label=N_("meant for"),
        ),
        Field("note", "The household's words", label=N_("remark"), is_free=True),
        *COST,
    ),
    TreatmentUnit,
)
SERVICES = Table(
    "service",
    "services.csv",
    N_("One row for each service or bypass of a treatment unit"),
    (
        Field("service", "Number of the service", at="id", is_number=True),
        Field("unit", "Number of the treatment unit", is_number=True),
        Field("day", "Day, month or year", "ISO 8601", label=N_("day")),
        Field("until", "Last day of a bypass", "ISO 8601", label=N_("until")),
        Field(
            "kind",
            "What was done: media, cartridge, lamp, salt, bypass and so on",
            label=N_("kind"),
        ),
        Field("text", "The household's words", label=N_("text"), is_free=True),
        *COST,
        METER,
    ),
    Service,
)
PLANS = Table(
    "plan",
    "plans.csv",
    N_("One row for each planned group of a point"),
    (
        Field("plan", "Number of the plan", at="id", is_number=True),
        Field("point", "Number of the sampling point", is_number=True),
        Field("panel", "Key of the group of parameters"),
        Field("interval", "Time between tests", "calendar months", at="months", label=N_("months")),
        Field(
            "reason",
            "Why this interval, in the household's words",
            label=N_("reason"),
            is_free=True,
        ),
        Field(
            "postponed",
            "Day to which the next test was put off",
            "ISO 8601",
            label=N_("put off to"),
        ),
        Field("postponed_why", "The reason given", is_free=True),
    ),
    Plan,
)
EVENTS = Table(
    "event",
    "events.csv",
    N_("One row for each event"),
    (
        Field("event", "Number of the event", at="id", is_number=True),
        Field("well", "Number of the well", is_number=True),
        Field("kind", "Kind of event", label=N_("kind")),
        Field("day", "Day, month or year", "ISO 8601", label=N_("day")),
        Field(
            "until",
            "Last day, month or year; empty for a single day",
            "ISO 8601",
            label=N_("until"),
        ),
        Field("text", "The household's words", label=N_("text"), is_free=True),
        Field("private", "yes: a fact about people"),
        *COST,
        *FLOW,
    ),
    Event,
)
SAMPLES = Table(
    "sample",
    "samples.csv",
    N_("One row for each sample"),
    (
        Field("sample", "Number of the sample in its book", at="id", is_number=True),
        Field("point", "Number of the sampling point", is_number=True, label=N_("point")),
        Field(
            "collected",
            "When it was drawn: local time with offset from UTC if known, or month or year alone",
            "ISO 8601",
            label=N_("drawn on"),
        ),
        Field("lab", "Name of the lab", label=N_("lab")),
        Field("lab_number", "The lab's own number of the sample", label=N_("lab’s number")),
        Field(
            "dispatched",
            "When it was handed to the courier or driven off",
            "ISO 8601",
            label=N_("sent off"),
        ),
        Field("received", "When the lab received it", "ISO 8601", label=N_("received")),
        Field("reported", "Day of the lab's report", "ISO 8601", label=N_("reported")),
        Field("purpose", "Why it was drawn", label=N_("purpose")),
        Field(
            "sampler",
            "Who drew it (personal)",
            label=N_("drawn by"),
            is_personal=True,
            stays_behind=True,
        ),
        Field(
            "standing",
            "In what capacity it was drawn: owner, lab, agency and so on",
            label=N_("who draws"),
        ),
        Field("draw", "How it was drawn: first draw, flushed", label=N_("way of drawing")),
        Field(
            "temperature",
            "Temperature on receipt as printed, with its unit",
            label=N_("temperature on receipt"),
        ),
        Field(
            "rain",
            "Rain of the ten days before, as written down, with its unit",
            label=N_("rain before"),
        ),
        Field("note", "The household's words", label=N_("remark"), is_free=True),
        Field(
            "struck",
            "Why it is not to be counted; empty if it counts",
            label=N_("struck out because"),
            is_free=True,
        ),
        *COST,
        Field(
            "awaited",
            "Keys of the parameters that were ordered and are not reported yet",
            label=N_("awaited"),
            since=2,
        ),
        Field("bottles", "Bottles that were filled", label=N_("bottles"), is_free=True, since=2),
        Field(
            "cooling",
            "What kept it cold on the way: ice, cold packs, none",
            label=N_("kept cold by"),
            since=2,
        ),
        Field(
            "parcel",
            "Number of the parcel (personal)",
            label=N_("parcel number"),
            is_personal=True,
            stays_behind=True,
            since=2,
        ),
        Field(
            "form",
            "Number of the lab's form that went along",
            label=N_("number of the form"),
            is_free=True,
            since=2,
        ),
    ),
    NewSample,
)
RESULTS = Table(
    "result",
    "results.csv",
    N_("One row for each reading"),
    (
        Field("result", "Number of the result in its book", at="id", is_number=True),
        Field("sample", "Number of the sample", is_number=True),
        Field("well", "Name of the well", is_free=True),
        Field("point", "Name of the sampling point", is_free=True),
        Field("treated", "yes: drawn after treatment; no: before"),
        Field("collected", "When the sample was drawn", "ISO 8601", label=N_("drawn on")),
        Field(
            "parameter",
            "Our key of the parameter; empty if the printed name is not known",
            label=N_("parameter"),
        ),
        Field(
            "printed_name",
            "Name of the parameter as the lab printed it",
            at="name",
            label=N_("printed name"),
        ),
        Field(
            "reported",
            "The result exactly as the lab printed it",
            at="reading.text",
            label=N_("reading"),
        ),
        Field(
            "kind",
            "number, below, above, present, absent, not analysed, or text",
            at="reading.kind",
            label=N_("kind"),
        ),
        Field("comparator", "< for below a reporting limit, > for above a bound, else empty"),
        Field(
            "number",
            "The figure, or the bound of below and above",
            "see the column unit",
            at="reading.number",
            label=N_("number"),
        ),
        Field("unit", "Unit exactly as printed", at="reading.unit", label=N_("unit")),
        Field(
            "basis",
            "What the weight is counted as, e.g. as N",
            at="reading.basis",
            label=N_("basis"),
        ),
        Field(
            "fraction",
            "total, dissolved, or empty if not stated",
            at="reading.fraction",
            label=N_("fraction"),
        ),
        Field("qualifier", "Letters beside the result, as printed", label=N_("qualifier")),
        Field(
            "flags",
            "What the letters and words beside the result mean, separated by commas",
            at="reading.flags",
            label=N_("flags"),
        ),
        Field(
            "reporting_limit",
            "Reporting limit as printed",
            "see the column unit",
            label=N_("reporting limit"),
        ),
        Field(
            "detection_limit",
            "Method detection limit as printed",
            "see the column unit",
            label=N_("detection limit"),
        ),
        Field("method", "Method as printed", label=N_("method")),
        Field("lab", "Name of the lab that ran it", label=N_("lab")),
        Field("analysed", "When the analysis started", "ISO 8601", label=N_("analysed")),
        Field("draw", "How the sample was drawn: first draw, flushed", label=N_("way of drawing")),
        Field(
            "place",
            "Where it stands in the report: page and line, or row and column; boxes in points",
            label=N_("place in the report"),
            is_free=True,
            since=2,
        ),
        Field(
            "report",
            "First digits of the SHA-256 of that report, where it is not the first",
            since=2,
        ),
        Field(
            "usual_number",
            "The figure or bound in the usual unit, with the digits reported",
            "see the column usual_unit",
        ),
        Field("usual_unit", "The parameter's usual unit"),
        Field("usual_basis", "The parameter's usual basis"),
        Field("struck", "yes: the sample was struck out and does not count"),
    ),
    NewResult,
)
DOCUMENTS = Table(
    "document",
    "documents.csv",
    N_("One row for each document and sample or well it belongs to"),
    (
        Field("document", "Number of the document", at="id", is_number=True),
        Field("sample", "Number of the sample it belongs to", is_number=True),
        Field("well", "Number of the well it belongs to", is_number=True),
        Field("kind", "Lab report, custody, well log, photo, other"),
        Field("name", "Name of the file as it came"),
        Field("media_type", "Media type"),
        Field("size", "Size of the file", "bytes"),
        Field("sha256", "SHA-256 of its content"),
        Field(
            "event", "Number of the well's event it shows, such as an inspection", is_number=True
        ),
        Field("file", "Where the file lies beside these tables, if it was exported"),
    ),
)
SETTINGS = Table(
    "setting",
    "",
    "",
    (Field("value", "What the household chose", label=N_("choice")),),
)

__all__ = [
    "CONSTRUCTION", "DOCUMENTS", "EVENTS", "LABS", "PLANS", "POINTS", "PRICES", "RESULTS",
    "SAMPLES", "SERVICES", "SETTINGS", "TABLES", "UNITS", "WELLS",
]  # fmt: skip

TABLES = (
    WELLS,
    CONSTRUCTION,
    POINTS,
    UNITS,
    SERVICES,
    LABS,
    PRICES,
    PLANS,
    EVENTS,
    SAMPLES,
    RESULTS,
    EXPENSES,
    INTERVALS,
    ANSWERS,
    SETTINGS,
)
