"""Make the frozen book of the newest version from that of the version before: migrate, add to it.

Run it while the newest step of the schema is not yet released; a released book is never made anew.
"""

import shutil
from datetime import UTC, datetime
from pathlib import Path

from wellbook.book import Book
from wellbook.book.copies import folder_of
from wellbook.book.rows import Price
from wellbook.book.schema import VERSION

HERE = Path(__file__).parent


def main() -> None:
    """Write `version-N.wellbook` beside this file."""
    path = HERE / f"version-{VERSION}.wellbook"
    shutil.copyfile(HERE / f"version-{VERSION - 1}.wellbook", path)
    with Book.open(path, now=lambda: datetime(2026, 11, 28, tzinfo=UTC)) as book:
        sample = book.samples()[0]
        book.correct_sample(sample.id, "The bill came", cost="85.50", currency="USD")
        prices = [Price(0, 0, "tests", "Lead", "22.50", "USD", "lead", "Lead", "2026-03")]
        book.set_prices(sample.lab, prices)
    shutil.rmtree(folder_of(path))


if __name__ == "__main__":
    main()
