"""Words that a book or a limit has from a list of ours, as they stand on a page.

A word that somebody typed instead stays as it is.
"""

from wellbook.support.translation import pgettext


def event(kind: str) -> str:
    """What kind of event it was."""
    return {
        "flood": pgettext("event", "flood"),
        "repair": pgettext("event", "repair"),
        "pump": pgettext("event", "pump"),
        "disinfection": pgettext("event", "disinfection"),
        "treatment": pgettext("event", "treatment"),
        "drilling nearby": pgettext("event", "drilling nearby"),
        "quarry nearby": pgettext("event", "quarry nearby"),
        "road salt": pgettext("event", "road salt"),
        "farming nearby": pgettext("event", "farming nearby"),
        "septic nearby": pgettext("event", "septic nearby"),
        "landfill nearby": pgettext("event", "landfill nearby"),
        "spill": pgettext("event", "spill"),
        "fire nearby": pgettext("event", "fire nearby"),
        "earthquake": pgettext("event", "earthquake"),
        "dry": pgettext("event", "dry"),
        "taste": pgettext("event", "taste"),
        "radon in air": pgettext("event", "radon in air"),
        "sale": pgettext("event", "sale"),
        "owner": pgettext("event", "owner"),
        "new well": pgettext("event", "new well"),
        "birth": pgettext("event", "birth"),
        "pregnancy": pgettext("event", "pregnancy"),
        "illness": pgettext("event", "illness"),
        "other": pgettext("event", "other"),
    }.get(kind, kind)


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
    return {
        "routine": pgettext("purpose of a test", "routine"),
        "after an event": pgettext("purpose of a test", "after an event"),
        "treatment check": pgettext("purpose of a test", "treatment check"),
        "complaint": pgettext("purpose of a test", "complaint"),
        "new well": pgettext("purpose of a test", "new well"),
        "sale": pgettext("purpose of a test", "sale"),
        "loan": pgettext("purpose of a test", "loan"),
    }.get(key, key)


def drawn_by(standing: str) -> str:
    """Who drew a sample, by standing."""
    return {
        "owner": pgettext("who drew a sample", "owner"),
        "lab": pgettext("who drew a sample", "lab"),
        "disinterested professional": pgettext("who drew a sample", "disinterested professional"),
        "agency": pgettext("who drew a sample", "agency"),
    }.get(standing, standing)


def draw(how: str) -> str:
    """How a sample was drawn."""
    return {
        "first draw": pgettext("how a sample was drawn", "first draw"),
        "flushed": pgettext("how a sample was drawn", "flushed"),
    }.get(how, how)


def fraction(key: str) -> str:
    """Which part of the water was measured, or is limited."""
    return {
        "total": pgettext("fraction", "total"),
        "dissolved": pgettext("fraction", "dissolved"),
    }.get(key, key)
