"""A full or failing disk: one clear sentence, nothing lost, nothing half kept."""

import errno
import os
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from wellbook.book import Book, copies
from wellbook.book.check import check
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import read_catalogue

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="uses Linux' ways to fail a disk")

WRITES = """
import sys
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from wellbook.book import Book
from wellbook.book.rows import NewDocument, NewSample
from wellbook.support.errors import Fault
from wellbook.water.values.local_time import LocalTime

days = [datetime.now(UTC)]
try:
    with Book.open(Path(sys.argv[1]), now=lambda: days[0]) as book:
        for n in range(40):
            scan = NewDocument(f"{n}.pdf", "application/pdf", bytes([n]) * 30_000)
            book.add_sample(NewSample(1, LocalTime(date(2024, 5, 3)), documents=(scan,)))
            print(book.digest(), flush=True)
            if n == 3:
                days[0] += timedelta(days=1)
except Fault as fault:
    print("Fault:", fault, flush=True)
"""


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(paths.resources())


def new_book(folder):
    path = folder / "home.wellbook"
    with Book.create(path) as book:
        book.add_point(book.add_well("Home"), "Kitchen tap")
    return path


def write_until_it_fails(path, **environ):
    done = subprocess.run(
        [sys.executable, "-c", WRITES, str(path)],
        capture_output=True,
        text=True,
        env=os.environ | environ,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    *digests, last = done.stdout.splitlines() or [""]
    return digests, last


def assert_holds(path, digests, catalogue):
    with Book.open(path) as book:
        assert {entry.digest for entry in book.journal()}.issuperset(digests)
        for sample in book.samples():
            assert len(book.documents(sample=sample.id)) == 1
    assert check(path, catalogue, date.today()) == ()


@pytest.fixture
def small_disk(tmp_path):
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=700k", "tmpfs", str(disk)],
        capture_output=True,
        check=False,
    )
    if mounted.returncode:
        pytest.skip("nothing can be mounted here")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


def test_a_disk_that_fills_up_keeps_what_was_acknowledged(small_disk, catalogue):
    path = new_book(small_disk)
    digests, last = write_until_it_fails(path)
    assert 2 < len(digests) < 40
    assert last.startswith("Fault: ")
    assert "is full" in last
    assert_holds(path, digests, catalogue)
    with pytest.raises(Fault, match=r"is full|No copy"):
        copies.make_copy(path, date.today())
    assert not list(small_disk.rglob("*.partial"))


@pytest.fixture(scope="module")
def shim(tmp_path_factory):
    compiler = shutil.which("cc") or shutil.which("gcc")
    if not compiler:
        pytest.skip("no C compiler here")
    library = tmp_path_factory.mktemp("shim") / "failing_io.so"
    source = Path(__file__).with_name("failing_io.c")
    subprocess.run([compiler, "-shared", "-fPIC", "-o", library, source, "-ldl"], check=True)
    return str(library)


# The disk is full at every other of these writes and fails at those between.
@pytest.mark.parametrize(
    ("after", "error"),
    [*zip([0, 1, 2, 3, 5, 8, 13, 21, 55, 144], [errno.EIO, errno.ENOSPC] * 5, strict=True)],
)
def test_a_disk_that_dies_at_any_write_loses_nothing_acknowledged(
    tmp_path, shim, catalogue, after, error
):
    path = new_book(tmp_path)
    digests, last = write_until_it_fails(
        path, LD_PRELOAD=shim, FAIL_AFTER=str(after), FAIL_WITH=str(error)
    )
    assert last.startswith("Fault: ")
    assert "Traceback" not in last
    assert_holds(path, digests, catalogue)


def test_a_file_that_may_not_grow_is_said(tmp_path, catalogue):
    import resource

    path = new_book(tmp_path)
    limit = path.stat().st_size + 100_000
    done = subprocess.run(
        [sys.executable, "-c", WRITES, str(path)],
        capture_output=True,
        text=True,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit)),
        check=False,
    )
    *digests, last = done.stdout.splitlines()
    assert last.startswith("Fault: "), done.stderr
    assert_holds(path, digests, catalogue)


def test_a_drive_that_knows_no_locks_is_said_and_nothing_is_written(tmp_path, shim):
    path = new_book(tmp_path)
    before = path.read_bytes()
    digests, last = write_until_it_fails(path, LD_PRELOAD=shim, FAIL_LOCKS=str(errno.EOPNOTSUPP))
    assert (digests, path.read_bytes()) == ([], before)
    assert "can’t lock files" in last
    assert "Copy it to a disk of this computer" in last
