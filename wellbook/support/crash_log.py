"""Where the trace of a mistake of ours goes, so that no person has to look at it."""

import traceback
from pathlib import Path

from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.whole_file import write_whole


def write_trace(error: BaseException) -> Path | None:
    """Write how an error came about into one file, over the last one.

    Returns:
        The file; None where it can't be written, which must not hide the error itself.
    """
    try:
        path = paths.data() / "trouble.txt"
        text = "".join(traceback.format_exception(error))
        write_whole(path, text.encode("utf-8", "backslashreplace"))
    except (OSError, Fault):
        return None
    return path
