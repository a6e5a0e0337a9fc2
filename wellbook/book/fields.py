"""The fields that may be given when a well, a unit, a lab or a plan is written."""

from typing import TypedDict


class WellFields(TypedDict, total=False):
    """What may be said of a well beside its name; see `rows.Well`."""

    note: str
    address: str
    coordinates: str
    replaces: int
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
