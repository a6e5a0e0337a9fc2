"""Guard against workbooks that would swell beyond all bounds when unpacked."""

import io
import zipfile
import zlib

from wellbook.faults import Fault

LARGEST = 200_000_000  # bytes unpacked; our own bound, some 500,000 rows of results
_STEP = 1 << 20
_LOCAL_HEADER = 30  # bytes before the name (PKWARE APPNOTE 4.3.7), lengths at 26 and 28


def members(content: bytes, name: str) -> frozenset[str]:
    """Names of the parts of a zipped workbook, after it was seen to unpack within bounds.

    The sizes that an archive states are not trusted: every part is unpacked once and thrown away.

    Raises:
        Fault: The archive is damaged or too large.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            parts = archive.infolist()
        total = 0
        for part in parts:
            total = _unpacked(content, part, total)
            if total > LARGEST:
                raise Fault(
                    f"{name} unpacks to more than {LARGEST // 1_000_000} MB: too large to be a "
                    "lab's report. Ask for the results as CSV."
                )
    except (zipfile.BadZipFile, zlib.error, IndexError, NotImplementedError) as error:
        raise Fault(
            f"{name} is damaged: its parts can't be unpacked ({error}). Ask for the file again."
        ) from None
    return frozenset(part.filename for part in parts)


def _unpacked(content: bytes, part: zipfile.ZipInfo, total: int) -> int:
    if part.compress_type == zipfile.ZIP_STORED:
        return total + part.compress_size
    at = part.header_offset
    lengths = (int.from_bytes(content[at + i : at + i + 2], "little") for i in (26, 28))
    start = at + _LOCAL_HEADER + sum(lengths)
    unpack = zlib.decompressobj(-zlib.MAX_WBITS)
    packed = content[start : start + part.compress_size]
    while packed and not unpack.eof and total <= LARGEST:
        total += len(unpack.decompress(packed, _STEP))
        packed = unpack.unconsumed_tail
    return total
