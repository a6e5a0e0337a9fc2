"""The whole record as open tables with a dictionary, as a workbook, and the originals."""

from pathlib import Path

from wellbook.book.record import Record
from wellbook.export.workbook import FILE, workbook
from wellbook.export.wqx import wqx_tables
from wellbook.planning.settings import paper
from wellbook.sandbox.process import CancelCheck, never_cancelled
from wellbook.sharing.tables import file_names, tables
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import require_replaceable, write_whole
from wellbook.water.values.catalogue import Catalogue


def export(
    record: Record,
    catalogue: Catalogue,
    folder: Path,
    *,
    check_cancelled: CancelCheck = never_cancelled,
) -> list[Path]:
    """Write every table, the data dictionary and the original documents into a folder.

    Files of the same names are overwritten; nothing else in the folder is touched. What
    `check_cancelled` raises before the first of them is written leaves everything as it was.

    Raises:
        Fault: The folder can't be made or written.
    """
    named = file_names(record.documents)
    written: list[Path] = []
    try:
        made = tables(
            record,
            catalogue,
            with_personal=True,
            named=named,
            more=wqx_tables(record, with_personal=True),
        )
        check_cancelled()
        contents = {table.file: table.content() for table in made}
        contents[FILE] = workbook(made, paper(record.settings))
        for name, content in contents.items():
            require_replaceable(folder / name, content)
        for number, name in named.items():
            require_replaceable(folder / name, record.archive.content(number))
        check_cancelled()
        (folder / "documents").mkdir(parents=True, exist_ok=True)
        written += [_write(folder / name, content) for name, content in contents.items()]
        written += [
            _write(folder / name, record.archive.content(number)) for number, name in named.items()
        ]
    except OSError as error:
        raise Fault(
            _("{folder} can’t be written ({problem}): choose another folder, or make room.").format(
                folder=folder, problem=error.strerror
            )
        ) from error
    return written


def _write(path: Path, content: bytes) -> Path:
    write_whole(path, content)
    return path
