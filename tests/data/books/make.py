"""Make the frozen book of the newest version from that of the version before: migrate, add to it.

Run it while the newest step of the schema is not yet released; a released book is never made anew.
"""

import shutil
from datetime import UTC, datetime
from pathlib import Path

from wellbook.book import Book
from wellbook.book.copies import folder_of
from wellbook.book.rows import InspectionAnswer, Price
from wellbook.book.schema import VERSION

HERE = Path(__file__).parent


def main() -> None:
    """Write `version-N.wellbook` beside this file."""
    path = HERE / f"version-{VERSION}.wellbook"
    shutil.copyfile(HERE / f"version-{VERSION - 1}.wellbook", path)
    with Book.open(path, now=lambda: datetime(2026, 11, 28, tzinfo=UTC)) as book:
        sample = book.samples()[0]
        book.correct_sample(sample.id, "The bill came", cost="85.50", currency="USD")
        paid = {"cost": "49.90", "currency": "USD"}
        unit = book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2024", **paid)
        book.add_service(unit, "lamp", "2025-04-02", meter="8100 h", **paid)
        book.set_interval(1, "uv_sleeve", 6, unit=unit)
        book.set_interval(1, "uv_lamp", 12, unit=unit, use="9000 h", a_day="24 h")
        book.add_expense(1, "bottled water", "2025-05", **paid)
        cap = InspectionAnswer(0, 0, "cap", "bad", text="cracked")
        book.add_inspection(1, "2026-04-10", [cap], **paid)
        tested = {"flow": "5.2", "flow_unit": "gal/min", "hours": "4", "done_by": "a driller"}
        fell = {"drawdown": "12", "drawdown_unit": "ft"}
        book.add_event(1, "flow test", "2026-05-03", **tested, **fell)
        prices = [Price(0, 0, "tests", "Lead", "22.50", "USD", "lead", "Lead", "2026-03")]
        book.set_prices(sample.lab, prices)
    shutil.rmtree(folder_of(path))


if __name__ == "__main__":
    main()
