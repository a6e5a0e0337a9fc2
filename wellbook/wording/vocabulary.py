"""Words that a book or a limit has from a list of ours, as they stand on a page.

A word that somebody typed instead stays as it is.
"""

from wellbook.support.translation import say_as


def event(kind: str) -> str:
    """What kind of event it was."""
    return {
        "flood": say_as("event", "flood"),
        "repair": say_as("event", "repair"),
        "pump": say_as("event", "pump"),
        "disinfection": say_as("event", "disinfection"),
        "treatment": say_as("event", "treatment"),
        "drilling nearby": say_as("event", "drilling nearby"),
        "quarry nearby": say_as("event", "quarry nearby"),
        "road salt": say_as("event", "road salt"),
        "farming nearby": say_as("event", "farming nearby"),
        "septic nearby": say_as("event", "septic nearby"),
        "landfill nearby": say_as("event", "landfill nearby"),
        "spill": say_as("event", "spill"),
        "fire nearby": say_as("event", "fire nearby"),
        "earthquake": say_as("event", "earthquake"),
        "dry": say_as("event", "dry"),
        "taste": say_as("event", "taste"),
        "radon in air": say_as("event", "radon in air"),
        "sale": say_as("event", "sale"),
        "owner": say_as("event", "owner"),
        "birth": say_as("event", "birth"),
        "pregnancy": say_as("event", "pregnancy"),
        "illness": say_as("event", "illness"),
        "other": say_as("event", "other"),
    }.get(kind, kind)


def treatment(kind: str) -> str:
    """What kind of treatment unit it is."""
    return {
        "sediment filter": say_as("treatment unit", "sediment filter"),
        "ion exchange softener": say_as("treatment unit", "ion exchange softener"),
        "carbon filter": say_as("treatment unit", "carbon filter"),
        "reverse osmosis": say_as("treatment unit", "reverse osmosis"),
        "ultraviolet lamp": say_as("treatment unit", "ultraviolet lamp"),
        "iron filter": say_as("treatment unit", "iron filter"),
        "neutralizer": say_as("treatment unit", "neutralizer"),
        "anion exchange": say_as("treatment unit", "anion exchange"),
        "arsenic filter": say_as("treatment unit", "arsenic filter"),
        "aeration": say_as("treatment unit", "aeration"),
        "chlorination": say_as("treatment unit", "chlorination"),
    }.get(kind, kind)


def service(kind: str) -> str:
    """What was done to a treatment unit."""
    return {
        "bypass": say_as("done to a treatment unit", "bypass"),
        "cartridge": say_as("done to a treatment unit", "cartridge"),
        "media": say_as("done to a treatment unit", "media"),
        "membrane": say_as("done to a treatment unit", "membrane"),
        "lamp": say_as("done to a treatment unit", "lamp"),
        "salt": say_as("done to a treatment unit", "salt"),
        "sanitised": say_as("done to a treatment unit", "sanitised"),
        "repair": say_as("done to a treatment unit", "repair"),
        "setting": say_as("done to a treatment unit", "setting"),
    }.get(kind, kind)


def log_item(item: str) -> str:
    """An item of a well's log."""
    return {
        "kind": say_as("well log", "kind"),
        "depth": say_as("well log", "depth"),
        "diameter": say_as("well log", "diameter"),
        "casing": say_as("well log", "casing"),
        "casing above ground": say_as("well log", "casing above ground"),
        "screen": say_as("well log", "screen"),
        "grout": say_as("well log", "grout"),
        "rock": say_as("well log", "rock"),
        "static level": say_as("well log", "static level"),
        "pumping level": say_as("well log", "pumping level"),
        "yield": say_as("well log", "yield"),
        "pump": say_as("well log", "pump"),
        "pump set at": say_as("well log", "pump set at"),
        "pressure tank": say_as("well log", "pressure tank"),
        "cap": say_as("well log", "cap"),
        "distance to septic system": say_as("well log", "distance to septic system"),
    }.get(item, item)


def document(kind: str) -> str:
    """What kind of document it is."""
    return {
        "lab report": say_as("document", "lab report"),
        "custody": say_as("document", "custody"),
        "well log": say_as("document", "well log"),
        "photo": say_as("document", "photo"),
        "other": say_as("document", "other"),
    }.get(kind, kind)


def purpose(key: str) -> str:
    """What a sample was drawn for."""
    return {
        "routine": say_as("purpose of a test", "routine"),
        "after an event": say_as("purpose of a test", "after an event"),
        "treatment check": say_as("purpose of a test", "treatment check"),
        "complaint": say_as("purpose of a test", "complaint"),
        "new well": say_as("purpose of a test", "new well"),
        "sale": say_as("purpose of a test", "sale"),
        "loan": say_as("purpose of a test", "loan"),
    }.get(key, key)


def drawn_by(standing: str) -> str:
    """Who drew a sample, by standing."""
    return {
        "owner": say_as("who drew a sample", "owner"),
        "lab": say_as("who drew a sample", "lab"),
        "disinterested professional": say_as("who drew a sample", "disinterested professional"),
        "agency": say_as("who drew a sample", "agency"),
    }.get(standing, standing)


def draw(how: str) -> str:
    """How a sample was drawn."""
    return {
        "first draw": say_as("how a sample was drawn", "first draw"),
        "flushed": say_as("how a sample was drawn", "flushed"),
    }.get(how, how)


def fraction(key: str) -> str:
    """Which part of the water was measured, or is limited."""
    return {
        "total": say_as("fraction", "total"),
        "dissolved": say_as("fraction", "dissolved"),
    }.get(key, key)
