"""The screen: one module a page or dialog, Qt only here.

`run` is the only door. It opens the book, reads the catalogue and hands both down by constructor;
pages show snapshots of the book and write through it. What a page shows first needs Qt and our
own small modules; charts, units, the packet and the lab file readers load after the first paint.
May import every package but `cli`, and never the store behind the book.
"""

import gc
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wellbook.window.common.jobs import Tell


def load_without_qt() -> None:
    """Load what the first page takes and needs no Qt.

    Once Qt is loaded, its binding looks into the source of every module that follows.
    """
    from wellbook.planning import advice, standings  # noqa: F401
    from wellbook.planning.upkeep import due  # noqa: F401
    from wellbook.wording import latest_change, reference, verdicts  # noqa: F401


def load_for_later(tell: "Tell") -> None:
    """Load what other pages take and needs no Qt, on another thread: the page of a parameter first.

    Asks `tell` in between whether the window is closed. A hundred modules read files.
    """
    from wellbook.charts.model import describe  # noqa: F401
    from wellbook.planning import between, consulting  # noqa: F401
    from wellbook.water.cautions import treatment_fit  # noqa: F401
    from wellbook.water.statistics import trend_power  # noqa: F401
    from wellbook.wording.consulting import levels, salt_sources  # noqa: F401

    tell(0, 0, "")
    from wellbook.intake import decisions  # noqa: F401

    tell(0, 0, "")
    from wellbook.intake import read, review, store  # noqa: F401

    tell(0, 0, "")
    from wellbook.intake import fate, price_list  # noqa: F401
    from wellbook.planning import rounds  # noqa: F401


def run(path: Path | None) -> int:
    """Open the window on a book, or on the start page, and return the exit code."""
    from wellbook.window.app import displays

    why_no_window = displays.why_no_window()
    if why_no_window:
        sys.stderr.write(why_no_window + "\n")
        return 1
    gc.disable()  # until the window collects by itself, see `garbage`
    load_without_qt()
    try:
        from wellbook.window.app import starting
    except ImportError as error:
        sys.stderr.write(displays.import_trouble(error) + "\n")
        return 1
    return starting.start(path)
