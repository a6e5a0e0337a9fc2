"""Words that a book or a limit has from a list of ours, as they stand on a page.

A word that somebody typed instead stays as it is.
"""

from wellbook.support.translation import _, pgettext
from wellbook.water.values.findings import Severity
from wellbook.water.values.readings import Flag, Fraction
from wellbook.water.values.results import Draw, Purpose, SamplerStanding
from wellbook.water.values.triggers import EventKind


def severity(asked: Severity) -> str:
    """What a finding asks for, before its sentence."""
    return {
        Severity.STOP: pgettext("finding", "Stop"),
        Severity.ASK: pgettext("finding", "Look"),
        Severity.NOTE: pgettext("finding", "Note"),
    }[asked]


def _events() -> dict[EventKind, tuple[str, str]]:
    """Kinds of events: the word for a table or a flag, and the one to choose by."""
    return {
        EventKind.FLOOD: (pgettext("event", "flood"), _("flood")),
        EventKind.REPAIR: (pgettext("event", "repair"), _("repair")),
        EventKind.PUMP: (pgettext("event", "pump"), _("pump")),
        EventKind.DISINFECTION: (pgettext("event", "disinfection"), _("disinfection")),
        EventKind.TREATMENT: (pgettext("event", "treatment"), _("treatment installed or changed")),
        EventKind.DRILLING: (pgettext("event", "drilling nearby"), _("drilling nearby")),
        EventKind.QUARRY: (pgettext("event", "quarry nearby"), _("quarry or blasting nearby")),
        EventKind.ROAD_SALT: (pgettext("event", "road salt"), _("road salt nearby")),
        EventKind.FARMING: (pgettext("event", "farming nearby"), _("farming nearby")),
        EventKind.SEPTIC: (pgettext("event", "septic nearby"), _("septic system nearby")),
        EventKind.LANDFILL: (
            pgettext("event", "landfill nearby"),
            _("landfill, fuel station or factory nearby"),
        ),
        EventKind.SPILL: (pgettext("event", "spill"), _("spill or spreading nearby")),
        EventKind.FIRE: (pgettext("event", "fire nearby"), _("fire nearby")),
        EventKind.EARTHQUAKE: (pgettext("event", "earthquake"), _("earthquake")),
        EventKind.DRY: (pgettext("event", "dry"), _("well ran dry or low")),
        EventKind.TASTE: (pgettext("event", "taste"), _("change of taste, smell or colour")),
        EventKind.RADON_IN_AIR: (
            pgettext("event", "radon in air"),
            _("radon in the air of the house"),
        ),
        EventKind.SALE: (pgettext("event", "sale"), _("sale or loan planned")),
        EventKind.OWNER: (pgettext("event", "owner"), _("change of owner")),
        EventKind.BIRTH: (pgettext("event", "birth"), _("birth")),
        EventKind.PREGNANCY: (pgettext("event", "pregnancy"), _("pregnancy")),
        EventKind.ILLNESS: (pgettext("event", "illness"), _("illness")),
        EventKind.OTHER: (pgettext("event", "other"), _("something else")),
    }


def event(kind: str) -> str:
    """What kind of event it was, in a word or two."""
    return next((short for known, (short, _full) in _events().items() if known == kind), kind)


def event_choices() -> dict[str, str]:
    """Kinds of events by key, as a person chooses among them."""
    return {kind: full for kind, (_short, full) in _events().items()}


def event_in_full(kind: str) -> str:
    """What kind of event it was, as it was chosen."""
    return event_choices().get(kind, kind)


def flag(said: Flag) -> str:
    """What the lab said beside a reading."""
    return {
        Flag.ESTIMATED: _("estimated"),
        Flag.HELD_TOO_LONG: _("held too long"),
        Flag.IN_BLANK: _("found in the blank"),
        Flag.DUPLICATE: _("duplicate"),
        Flag.DILUTED: _("diluted"),
        Flag.REJECTED: _("rejected"),
        Flag.OVER_RANGE: _("over the method’s range"),
        Flag.OVERGROWN: _("overgrown"),
    }[said]


def treatment(kind: str) -> str:
    """What kind of treatment unit it is."""
    return {
        "sediment filter": pgettext("treatment unit", "sediment filter"),
        "ion exchange softener": pgettext("treatment unit", "ion exchange softener"),
        "carbon filter": pgettext("treatment unit", "carbon filter"),
        "reverse osmosis": pgettext("treatment unit", "reverse osmosis"),
        "ultraviolet lamp": pgettext("treatment unit", "ultraviolet lamp"),
        "iron filter": pgettext("treatment unit", "iron filter"),
        "neutralizer": pgettext("treatment unit", "neutralizer"),
        "anion exchange": pgettext("treatment unit", "anion exchange"),
        "arsenic filter": pgettext("treatment unit", "arsenic filter"),
        "aeration": pgettext("treatment unit", "aeration"),
        "chlorination": pgettext("treatment unit", "chlorination"),
    }.get(kind, kind)


def service(kind: str) -> str:
    """What was done to a treatment unit."""
    return {
        "bypass": pgettext("done to a treatment unit", "bypass"),
        "cartridge": pgettext("done to a treatment unit", "cartridge"),
        "media": pgettext("done to a treatment unit", "media"),
        "membrane": pgettext("done to a treatment unit", "membrane"),
        "lamp": pgettext("done to a treatment unit", "lamp"),
        "salt": pgettext("done to a treatment unit", "salt"),
        "sanitised": pgettext("done to a treatment unit", "sanitised"),
        "repair": pgettext("done to a treatment unit", "repair"),
        "setting": pgettext("done to a treatment unit", "setting"),
    }.get(kind, kind)


def log_item(item: str) -> str:
    """An item of a well's log."""
    return {
        "kind": pgettext("well log", "kind"),
        "depth": pgettext("well log", "depth"),
        "diameter": pgettext("well log", "diameter"),
        "casing": pgettext("well log", "casing"),
        "casing above ground": pgettext("well log", "casing above ground"),
        "screen": pgettext("well log", "screen"),
        "grout": pgettext("well log", "grout"),
        "rock": pgettext("well log", "rock"),
        "static level": pgettext("well log", "static level"),
        "pumping level": pgettext("well log", "pumping level"),
        "yield": pgettext("well log", "yield"),
        "pump": pgettext("well log", "pump"),
        "pump set at": pgettext("well log", "pump set at"),
        "pressure tank": pgettext("well log", "pressure tank"),
        "cap": pgettext("well log", "cap"),
        "distance to septic system": pgettext("well log", "distance to septic system"),
    }.get(item, item)


def document(kind: str) -> str:
    """What kind of document it is."""
    return {
        "lab report": pgettext("document", "lab report"),
        "custody": pgettext("document", "custody"),
        "well log": pgettext("document", "well log"),
        "photo": pgettext("document", "photo"),
        "other": pgettext("document", "other"),
    }.get(kind, kind)


def purpose(key: str) -> str:
    """What a sample was drawn for."""
    return purposes().get(key, key)


def purposes() -> dict[str, str]:
    """What a sample can be drawn for, by key."""
    return {
        Purpose.ROUTINE: pgettext("purpose of a test", "routine"),
        Purpose.AFTER_EVENT: pgettext("purpose of a test", "after an event"),
        Purpose.TREATMENT_CHECK: pgettext("purpose of a test", "check of the treatment"),
        Purpose.COMPLAINT: pgettext("purpose of a test", "complaint"),
        Purpose.NEW_WELL: pgettext("purpose of a test", "new well"),
        Purpose.SALE: pgettext("purpose of a test", "sale of the house"),
        Purpose.LOAN: pgettext("purpose of a test", "loan"),
    }


def drawn_by(standing: str) -> str:
    """Who drew a sample, by standing."""
    return standings().get(standing, standing)


def standings() -> dict[str, str]:
    """Who can draw a sample, by key."""
    return {
        SamplerStanding.OWNER: pgettext("who drew a sample", "owner"),
        SamplerStanding.LAB: pgettext("who drew a sample", "lab"),
        SamplerStanding.PROFESSIONAL: pgettext("who drew a sample", "disinterested professional"),
        SamplerStanding.AGENCY: pgettext("who drew a sample", "agency"),
    }


def draw(how: str) -> str:
    """How a sample was drawn."""
    said = {
        Draw.FIRST: pgettext("how a sample was drawn", "first draw"),
        Draw.FLUSHED: pgettext("how a sample was drawn", "flushed"),
    }
    return next((words for known, words in said.items() if known == how), how)


def fraction(key: str) -> str:
    """Which part of the water was measured, or is limited."""
    said = {
        Fraction.TOTAL: pgettext("fraction", "total"),
        Fraction.DISSOLVED: pgettext("fraction", "dissolved"),
    }
    return next((words for known, words in said.items() if known == key), key)
