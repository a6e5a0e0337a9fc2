"""One reading in its place in the history: when, where, by which lab and method."""

from dataclasses import dataclass
from enum import StrEnum

from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Reading


class Draw(StrEnum):
    """How a sample was drawn."""

    FIRST = "first draw"
    FLUSHED = "flushed"


class Purpose(StrEnum):
    """What a sample was drawn for."""

    ROUTINE = "routine"
    AFTER_EVENT = "after an event"
    TREATMENT_CHECK = "treatment check"
    COMPLAINT = "complaint"
    NEW_WELL = "new well"
    SALE = "sale"
    LOAN = "loan"


class SamplerStanding(StrEnum):
    """Who drew a sample; a lender accepts some and not others."""

    OWNER = "owner"
    LAB = "lab"
    PROFESSIONAL = "disinterested professional"
    AGENCY = "agency"


# Not frozen, which takes four times as long to make: a history may hold 100,000. None is changed.
@dataclass(slots=True, unsafe_hash=True)
class Result:
    """A reading of one parameter in one sample, as the record hands it out.

    Attributes:
        id: Number of the result in its book.
        sample: Number of the sample in its book.
        parameter: Key of the parameter in the catalogue; empty if the name was not recognised.
        name: The parameter's name exactly as the lab printed it.
        reading: What the lab wrote.
        collected: When the sample was drawn.
        point: Number of the sampling point in its book.
        method: Method as printed, e.g. `EPA 300.0`.
        reporting_limit: Reporting limit as printed in its own column, in the reading's unit.
        detection_limit: Method detection limit as printed, in the reading's unit.
        qualifier: Flag letters as printed.
        lab: Name of the lab that ran it (it may differ from the sample's).
        analysed: When the analysis started, if printed.
        draw: How the sample was drawn: `first draw`, `flushed`, or empty when not known.
        received: When the sample came to the lab, if printed.
        place: Where it stands in its report, e.g. `page 2; line 7`; empty if it was typed.
        report: First digits of the SHA-256 of that report; empty for the test's first document.
    """

    id: int
    sample: int
    parameter: str
    name: str
    reading: Reading
    collected: LocalTime
    point: int
    method: str = ""
    reporting_limit: str = ""
    detection_limit: str = ""
    qualifier: str = ""
    lab: str = ""
    analysed: LocalTime | None = None
    draw: str = ""
    received: LocalTime | None = None
    place: str = ""
    report: str = ""
