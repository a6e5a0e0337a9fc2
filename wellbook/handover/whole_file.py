"""Writing a file so that nobody ever sees half of it."""

import os
import tempfile
from pathlib import Path

from wellbook.faults import Fault


def write_whole(path: Path, content: bytes) -> None:
    """Write beside the place and rename; what lay there before is replaced only by the whole.

    Raises:
        Fault: The folder can't be written, or the disk is full.
    """
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    except OSError as error:
        raise _fault(path, error) from error
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(0o644)
        beside.replace(path)
    except OSError as error:
        raise _fault(path, error) from error
    finally:
        beside.unlink(missing_ok=True)


def _fault(path: Path, error: OSError) -> Fault:
    return Fault(
        f"{path} can't be written ({error.strerror}): choose another folder, or make room there."
    )
