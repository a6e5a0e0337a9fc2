"""The data dictionary: what stands in which column of the exported tables."""

from dataclasses import dataclass

PERSONAL = frozenset({"address", "coordinates", "sampler"})


@dataclass(frozen=True, slots=True)
class Field:
    """A column of an exported table."""

    name: str
    meaning: str
    unit: str = ""


WELLS = (
    Field("well", "Number of the well in its book"),
    Field("name", "Name of the well"),
    Field("replaces", "Number of the well that this one replaced or deepened"),
    Field("note", "The household's words"),
    Field("address", "Address (personal)"),
    Field("coordinates", "Coordinates as entered (personal)"),
)
CONSTRUCTION = (
    Field("well", "Number of the well"),
    Field("item", "What is described, e.g. depth, casing"),
    Field("text", "As written in the well log, with its unit"),
)
POINTS = (
    Field("point", "Number of the sampling point"),
    Field("well", "Number of the well"),
    Field("name", "Name of the point"),
    Field("treated", "yes: the water there has passed treatment; no: it has not"),
    Field("place", "Place in the flow, 1 nearest the well"),
    Field("note", "The household's words"),
)
UNITS = (
    Field("unit", "Number of the treatment unit"),
    Field("well", "Number of the well"),
    Field("name", "Name of the unit"),
    Field("kind", "Kind of unit"),
    Field("place", "It treats the points whose place in the flow is greater"),
    Field("installed", "Day, month or year it was installed", "ISO 8601"),
    Field("removed", "Day, month or year it was removed; empty while in use", "ISO 8601"),
    Field("target", "Keys of the parameters it is meant to remove, separated by spaces"),
    Field("note", "The household's words"),
)
SERVICES = (
    Field("service", "Number of the service"),
    Field("unit", "Number of the treatment unit"),
    Field("day", "Day, month or year", "ISO 8601"),
    Field("until", "Last day of a bypass", "ISO 8601"),
    Field("kind", "What was done: media, cartridge, lamp, salt, bypass and so on"),
    Field("text", "The household's words"),
)
LABS = (
    Field("lab", "Number of the lab"),
    Field("name", "Name of the lab"),
    Field("accreditation", "Program and number as entered"),
    Field("valid_from", "First day the accreditation was valid", "ISO 8601"),
    Field("valid_to", "Last day the accreditation was valid", "ISO 8601"),
    Field("note", "The household's words"),
)
PLANS = (
    Field("plan", "Number of the plan"),
    Field("point", "Number of the sampling point"),
    Field("panel", "Key of the group of parameters"),
    Field("interval", "Time between tests", "calendar months"),
    Field("reason", "Why this interval, in the household's words"),
    Field("postponed", "Day to which the next test was put off", "ISO 8601"),
    Field("postponed_why", "The reason given"),
)
EVENTS = (
    Field("event", "Number of the event"),
    Field("well", "Number of the well"),
    Field("kind", "Kind of event"),
    Field("day", "Day, month or year", "ISO 8601"),
    Field("until", "Last day, month or year; empty for a single day", "ISO 8601"),
    Field("text", "The household's words"),
    Field("private", "yes: a fact about people"),
)
SAMPLES = (
    Field("sample", "Number of the sample in its book"),
    Field("point", "Number of the sampling point"),
    Field("collected", "When it was drawn: local time with offset from UTC if known", "ISO 8601"),
    Field("lab", "Name of the lab"),
    Field("lab_number", "The lab's own number of the sample"),
    Field("dispatched", "When it was handed to the courier or driven off", "ISO 8601"),
    Field("received", "When the lab received it", "ISO 8601"),
    Field("reported", "Day of the lab's report", "ISO 8601"),
    Field("purpose", "Why it was drawn"),
    Field("sampler", "Who drew it (personal)"),
    Field("standing", "In what capacity it was drawn: owner, lab, agency and so on"),
    Field("draw", "How it was drawn: first draw, flushed"),
    Field("temperature", "Temperature on receipt as printed, with its unit"),
    Field("rain", "Rain of the ten days before, as written down, with its unit"),
    Field("note", "The household's words"),
    Field("struck", "Why it is not to be counted; empty if it counts"),
)
RESULTS = (
    Field("result", "Number of the result in its book"),
    Field("sample", "Number of the sample"),
    Field("well", "Name of the well"),
    Field("point", "Name of the sampling point"),
    Field("treated", "yes: drawn after treatment; no: before"),
    Field("collected", "When the sample was drawn", "ISO 8601"),
    Field("parameter", "Our key of the parameter; empty if the printed name is not known"),
    Field("printed_name", "Name of the parameter as the lab printed it"),
    Field("reported", "The result exactly as the lab printed it"),
    Field("kind", "number, below, above, present, absent, not analysed, or text"),
    Field("comparator", "< for below a reporting limit, > for above a bound, else empty"),
    Field("number", "The figure, or the bound of below and above", "see the column unit"),
    Field("unit", "Unit exactly as printed"),
    Field("basis", "What the weight is counted as, e.g. as N"),
    Field("fraction", "total, dissolved, or empty if not stated"),
    Field("qualifier", "Letters beside the result, as printed"),
    Field("flags", "What the letters and words beside the result mean, separated by commas"),
    Field("reporting_limit", "Reporting limit as printed", "see the column unit"),
    Field("detection_limit", "Method detection limit as printed", "see the column unit"),
    Field("method", "Method as printed"),
    Field("lab", "Name of the lab that ran it"),
    Field("analysed", "When the analysis started", "ISO 8601"),
    Field("draw", "How the sample was drawn: first draw, flushed"),
    Field(
        "usual_number",
        "The figure or bound in the usual unit, with the digits reported",
        "see the column usual_unit",
    ),
    Field("usual_unit", "The parameter's usual unit"),
    Field("usual_basis", "The parameter's usual basis"),
    Field("struck", "yes: the sample was struck out and does not count"),
)
DOCUMENTS = (
    Field("document", "Number of the document"),
    Field("sample", "Number of the sample it belongs to"),
    Field("well", "Number of the well it belongs to"),
    Field("kind", "Lab report, custody, well log, photo, other"),
    Field("name", "Name of the file as it came"),
    Field("media_type", "Media type"),
    Field("size", "Size of the file", "bytes"),
    Field("sha256", "SHA-256 of its content"),
    Field("file", "Where the file lies beside these tables, if it was exported"),
)
DICTIONARY = (
    Field("file", "Name of the table's file"),
    Field("column", "Name of the column; empty where the row speaks of the whole file"),
    Field("meaning", "What stands in it"),
    Field("unit", "Unit or notation"),
)
