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
        EventKind.OWNER: (pgettext("event", "new owner"), _("change of owner")),
        EventKind.NEW_WELL: (pgettext("event", "new well"), _("new well drilled or dug")),
        EventKind.BIRTH: (pgettext("event", "birth"), _("birth")),
        EventKind.PREGNANCY: (pgettext("event", "pregnancy"), _("pregnancy")),
        EventKind.ILLNESS: (pgettext("event", "illness"), _("illness")),
        EventKind.INSPECTION: (
            pgettext("event", "inspection"),
            _("inspection of wellhead and surroundings"),
        ),
        EventKind.CHECK_UP: (pgettext("event", "check-up"), _("check-up by a contractor")),
        EventKind.FLOW_TEST: (pgettext("event", "flow test"), _("flow test of the well")),
        EventKind.SEPTIC_LOOK: (
            pgettext("event", "septic inspected"),
            _("septic tank inspected"),
        ),
        EventKind.SEPTIC_PUMPED: (pgettext("event", "septic pumped"), _("septic tank pumped")),
        EventKind.GAS_DETECTOR: (
            pgettext("event", "gas detector tested"),
            _("gas detector tested"),
        ),
        EventKind.BACKFLOW: (
            pgettext("event", "backflow tested"),
            _("backflow preventer tested"),
        ),
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
        Flag.PRELIMINARY: _("preliminary"),
    }[said]


def treatment(kind: str) -> str:
    """What kind of treatment unit it is."""
    return treatments().get(kind, kind)


def treatments() -> dict[str, str]:
    """Kinds of treatment, as they are kept and as they are shown."""
    return {
        "sediment filter": pgettext("treatment unit", "sediment filter"),
        "ion exchange softener": pgettext("treatment unit", "ion exchange softener"),
        "carbon filter": pgettext("treatment unit", "carbon filter"),
        "carbon tank": pgettext("treatment unit", "carbon tank"),
        "reverse osmosis": pgettext("treatment unit", "reverse osmosis"),
        "ultraviolet lamp": pgettext("treatment unit", "ultraviolet lamp"),
        "iron filter": pgettext("treatment unit", "iron filter"),
        "neutralizer": pgettext("treatment unit", "neutralizer"),
        "anion exchange": pgettext("treatment unit", "anion exchange"),
        "arsenic filter": pgettext("treatment unit", "arsenic filter"),
        "aeration": pgettext("treatment unit", "aeration"),
        "chlorination": pgettext("treatment unit", "chlorination"),
        "distillation": pgettext("treatment unit", "distillation"),
        "storage tank": pgettext("treatment unit", "storage tank"),
        "spin-down screen": pgettext("treatment unit", "spin-down screen"),
        "soda ash feeder": pgettext("treatment unit", "soda ash feeder"),
        "refrigerator filter": pgettext("treatment unit", "refrigerator or pitcher filter"),
    }


def service(kind: str) -> str:
    """What was done to a treatment unit."""
    return services().get(kind, kind)


def services() -> dict[str, str]:
    """What is done to a treatment unit, as it is kept and as it is shown."""
    return {
        "bypass": pgettext("done to a treatment unit", "bypassed"),
        "cartridge": pgettext("done to a treatment unit", "new cartridge"),
        "media": pgettext("done to a treatment unit", "new media"),
        "membrane": pgettext("done to a treatment unit", "new membrane"),
        "lamp": pgettext("done to a treatment unit", "new lamp"),
        "salt": pgettext("done to a treatment unit", "salt filled up"),
        "sanitised": pgettext("done to a treatment unit", "sanitised"),
        "cleaned": pgettext("done to a treatment unit", "cleaned"),
        "refilled": pgettext("done to a treatment unit", "filled up"),
        "inspected": pgettext("done to a treatment unit", "inspected"),
        "repair": pgettext("done to a treatment unit", "repaired"),
        "setting": pgettext("done to a treatment unit", "setting changed"),
        "tested": pgettext("done to a treatment unit", "tested"),
        "resin cleaned": pgettext("done to a treatment unit", "resin cleaned"),
        "flushed": pgettext("done to a treatment unit", "flushed"),
        "pipes disinfected": pgettext("done to a treatment unit", "pipes behind it disinfected"),
        "compared": pgettext("done to a treatment unit", "water before it compared"),
        "failed": pgettext("done to a treatment unit", "did not work, as without power"),
        "meter": pgettext("done to a treatment unit", "meter read"),
    }


def expense(kind: str) -> str:
    """What else was paid for."""
    return expenses().get(kind, kind)


def expenses() -> dict[str, str]:
    """What else is paid for water, as it is kept and as it is shown."""
    return {
        "bottled water": pgettext("cost of water", "bottled water"),
        "salt": pgettext("cost of water", "salt"),
        "parts": pgettext("cost of water", "parts"),
        "contractor": pgettext("cost of water", "contractor"),
        "electricity": pgettext("cost of water", "electricity"),
        "permit": pgettext("cost of water", "permit or fee"),
        "other": pgettext("cost of water", "other"),
    }


def log_item(kind: str) -> str:
    """An item of a well's log."""
    return log_items().get(kind, kind)


def log_items() -> dict[str, str]:
    """Usual items of a well log, as they are kept and as they are shown."""
    return {
        "drilled": pgettext("well log", "drilled"),
        "driller": pgettext("well log", "driller"),
        "permit": pgettext("well log", "permit"),
        "kind": pgettext("well log", "kind of well"),
        "depth": pgettext("well log", "depth"),
        "diameter": pgettext("well log", "diameter"),
        "casing": pgettext("well log", "casing"),
        "casing above ground": pgettext("well log", "casing above ground"),
        "screen": pgettext("well log", "screen"),
        "grout": pgettext("well log", "grout"),
        "rock": pgettext("well log", "rock and soil"),
        "static level": pgettext("well log", "static water level"),
        "pumping level": pgettext("well log", "pumping water level"),
        "yield": pgettext("well log", "yield"),
        "pump": pgettext("well log", "pump"),
        "pump set at": pgettext("well log", "pump set at"),
        "pressure tank": pgettext("well log", "pressure tank"),
        "cap": pgettext("well log", "cap"),
        "gas detector": pgettext("well log", "gas detector"),
        "backflow preventer": pgettext("well log", "backflow preventer"),
        "distance to septic system": pgettext("well log", "distance to septic system"),
    }


def setting(key: str) -> str:
    """What a household can choose for its whole book."""
    if key.startswith("round_"):
        return pgettext("setting", "the lab and the way to it")
    return {
        "limit_sets": pgettext("setting", "limit sets"),
        "seasons": pgettext("setting", "seasons"),
        "interval": pgettext("setting", "months between tests"),
        "country": pgettext("setting", "country"),
        "subdivision": pgettext("setting", "state or province"),
        "well_kind": pgettext("setting", "kind of well"),
        "ground": pgettext("setting", "ground that the well stands in"),
        "units": pgettext("setting", "units of figures"),
        "near": pgettext("setting", "share of a limit that counts as close"),
        "language": pgettext("setting", "language of what is printed"),
        "paper": pgettext("setting", "paper"),
        "currency": pgettext("setting", "currency of costs"),
        "dates": pgettext("setting", "order of day and month"),
        "decimal": pgettext("setting", "decimal sign of lab files"),
        "ask": pgettext("setting", "whom to ask about health"),
        "emergency": pgettext("setting", "number for emergencies"),
        "reminders": pgettext("setting", "reminders at sign-in"),
        "people": pgettext("setting", "people of the household"),
        "received_from": pgettext("setting", "the packet that the book goes on from"),
        "sources": pgettext("setting", "the packets that tests came from"),
        "lab_decisions": pgettext("setting", "what was decided about files of labs"),
        "lab_names": pgettext("setting", "what was decided about files of labs"),
    }.get(key, key)


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
    if not key:
        return ""
    said = {
        Fraction.TOTAL: pgettext("fraction", "total"),
        Fraction.DISSOLVED: pgettext("fraction", "dissolved"),
    }
    return next((words for known, words in said.items() if known == key), key)
