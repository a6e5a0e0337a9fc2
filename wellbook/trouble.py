"""Where the trace of a mistake of ours goes, so that no person has to look at it."""

import traceback
from pathlib import Path

from wellbook import places


def keep_trace(error: BaseException) -> Path:
    """Write how an error came about into one file, over the last one; returns the file."""
    path = places.data() / "trouble.txt"
    path.write_text("".join(traceback.format_exception(error)), encoding="utf-8")
    return path
