"""Writing what belongs to a well: its construction log, and taking out what was a slip."""

from typing import Literal

from wellbook.book.writing import Writer

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
    for item in held.keys() - wanted.keys():
        writer.remove("construction", held[item][0])
    for item, text in wanted.items():
        if item in held:
            writer.update("construction", held[item][0], {"text": text})
        else:
            writer.insert("construction", {"well": well, "item": item, "text": text})
