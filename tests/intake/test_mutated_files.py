"""Files of every kind, harmed at random: each is read, or refused in one line, within bounds.

Within bounds: seconds, memory, and no file is written or changed while it is read. PDFs, pictures
and workbooks are read in processes that can't write (`tests/sandbox`).

`WELLBOOK_MUTATED=100000` tries more of them.
"""

import io
import os
import random
import sys
import time
import zipfile
from contextlib import contextmanager

import pytest
from drafts import TODAY, bench

from wellbook import intake
from wellbook.support.errors import Fault

corpus, _read_corpus = bench()
TRIED = int(os.environ.get("WELLBOOK_MUTATED", "2000"))
MOST_SECONDS = 5  # of the processor, for one file
MOST_MEMORY = 500  # MB beside what was there before
FILES = tuple(corpus.files())
PAPERS = 200 if TRIED <= 2000 else 20  # one in so many is a PDF, which takes a process of its own
PIECES = (
    *(b"", b"\x00", b"\xff\xfe", b'"', b",,,,", b"\n" * 400, b" " * 9000, b"(" * 9000),
    *(b"<!ENTITY", b"Result", b"1e999", b"-", b"9" * 300, b"{" * 300, b"<td colspan=99999>"),
)

# What Python's own list of audit events names for changes of files; `open` tells how.
_CHANGES = (
    *("os.mkdir", "os.rename", "os.link", "os.symlink", "os.remove", "os.rmdir", "os.truncate"),
    *("os.chmod", "os.chown", "os.utime", "sqlite3.connect"),
)
_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_watched = []  # where what is written is noted, as long as somebody watches


def _note(event, args):
    if _watched and (event in _CHANGES or (event == "open" and args[2] & _WRITES)):
        # A number is a pipe to another process; Python keeps what it has compiled.
        path = args[0]
        if not isinstance(path, int) and path != os.devnull and "__pycache__" not in str(path):
            _watched[-1].append((event, path))


sys.addaudithook(_note)


@contextmanager
def nothing_written():
    """Fails if a file is written, changed or removed in this process."""
    _watched.append([])
    try:
        yield
        assert _watched[-1] == []
    finally:
        _watched.pop()


def memory():
    """Most that this process has held, MB."""
    resource = pytest.importorskip("resource", reason="Windows tells no process its memory")
    unit = 1_000_000 if sys.platform == "darwin" else 1_000
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / unit


def harmed(content, dice):
    """The content with some bytes changed, cut, doubled or put in."""
    for _time in range(dice.randint(1, 4)):
        at = dice.randrange(len(content) + 1)
        end = min(len(content), at + dice.choice((1, 1, 8, 200, 4000)))
        piece = dice.choice(
            (
                dice.randbytes(end - at),
                dice.choice(PIECES),
                content[at:end] * 2,
                content[:at][-300:],
            )
        )
        content = content[:at] + piece + content[end:]
    return content


def harmed_within(content, dice):
    """The same for a part of an archive such as a workbook, packed anew so that it opens."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            parts = {name: archive.read(name) for name in archive.namelist()}
    except zipfile.BadZipFile:
        return harmed(content, dice)
    hit = dice.choice(sorted(parts))
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, part in parts.items():
            archive.writestr(name, harmed(part, dice) if name == hit else part)
    return file.getvalue()


def outcome(path, catalogue):
    """The draft of a file, or the sentence that refuses it."""
    try:
        return intake.read(path, catalogue, today=TODAY), ""
    except Fault as fault:
        return None, str(fault)


@pytest.mark.parametrize("part", range(4))
def test_a_harmed_file_is_read_or_refused_in_one_line(part, tmp_path, catalogue):
    papers = [file for file in FILES if file.name.endswith(".pdf")]
    others = [file for file in FILES if not file.name.endswith(".pdf")]
    for number in range(part, TRIED, 4):
        dice = random.Random(number)
        file = dice.choice(papers if number % PAPERS == 0 else others)
        path = tmp_path / file.name
        path.write_bytes(dice.choice((harmed, harmed_within))(file.content, dice))
        before, held = time.process_time(), memory()
        with nothing_written():
            draft, said = outcome(path, catalogue)
        assert "\n" not in said, (number, file.name)
        if draft:
            assert draft.taken <= draft.figures, (number, file.name)
            assert all(one.why and one.what for one in draft.not_taken), (number, file.name)
        assert time.process_time() - before < MOST_SECONDS, (number, file.name)
        assert memory() - held < MOST_MEMORY, (number, file.name)


@pytest.mark.parametrize(
    "content",
    [
        b"Collected,Parameter,Result,Units\n" + b"2024-05-03," + b" (" * 50_000 + b",2,mg/L\n",
        b"\n" * 3_000_000,
        b"Collected\n" + b"\n" * 200_000 + b"Parameter,Result\nIron,2\n",
        b",".join([b"Iron"] * 20_000) + b"\n" + b",".join([b"1"] * 20_000),
        b"[" * 100_000,
        b"<html><table>" + b"<tr><td>" * 30_000,
        b"2021-05-03: nitrate 3 mg/L, iron 0.2 mg/L\n" + (b"(" * 1_900 + b"\n") * 20,
        b"Sample,Date,Iron\n" + b"max min " * 60 + b"well,2024-05-03,2\nBarn,2024-05-03,3\n",
    ],
    ids=[
        *("long name", "blank lines", "blank head", "wide", "deep", "unclosed", "brackets"),
        "limits again and again",
    ],
)
def test_a_file_made_to_take_long_is_soon_done_with(content, lab_file, catalogue):
    before = time.process_time()
    _draft, said = outcome(lab_file(content), catalogue)
    assert "\n" not in said
    assert time.process_time() - before < MOST_SECONDS
