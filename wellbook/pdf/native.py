"""pdfium in this process: native code that only one thread at a time may be in."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pypdfium2 import PdfDocument

_ONE_AT_A_TIME = Lock()


@contextmanager
def opened(source: bytes | Path) -> Iterator["PdfDocument"]:
    """A PDF of ours; others wait until it is closed, and with it everything taken from it."""
    import pypdfium2

    with _ONE_AT_A_TIME:
        document = pypdfium2.PdfDocument(source)
        try:
            yield document
        finally:
            document.close()
