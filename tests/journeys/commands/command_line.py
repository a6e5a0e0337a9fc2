"""The real command in a process of its own, on real files, in a home of its own.

Whatever the command says, a try fails on a traceback, on "a mistake of its own", on a command that
does not end, on more than one line about what went wrong, and on anything left beside its files.
"""

import hashlib
import os
import resource
import shutil
import socket
import stat
import subprocess
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from random import random
from tempfile import TemporaryFile

import commands

ROOT = Path(__file__).parents[3]
SAMPLES = ROOT / "sample_wells"
DAY = "2026-11-25"
LEFT = (".part", ".partial", "-journal", "-wal")
CPU = 90  # seconds; no command on a household's book takes a tenth
LOOK, IDLE_LOOKS = 2.0, 5  # seconds between two looks, and looks that show no use
MEMORY = 2_000_000_000  # bytes of address space; a command on a household's book takes a fifth


@dataclass(frozen=True)
class Answer:
    """What a command came to."""

    code: int
    out: str
    err: str


class CommandLine:
    """A person's folder, and the commands typed in it."""

    def __init__(self, folder):
        self.home, self.folder = folder / "home", folder / "desk"
        self.home.mkdir()
        self.folder.mkdir()

    def household(self, name="home.wellbook", sample="alder-hollow"):
        return Path(shutil.copy(SAMPLES / f"{sample}.wellbook", self.folder / name))

    def run(self, *words, stdout=None, limits=(), codes=(0, 1, 2, 3), whole=False, **environ):
        """Type a command in the folder; `limits` are pairs of a resource and its bound.

        Python itself is started for it where bounds or a home of its own may meet its loading, and
        where it is asked for as a `whole`; a copy's own stream can't become a pipe.
        """
        bounds = {resource.RLIMIT_AS: MEMORY, resource.RLIMIT_CPU: CPU, **dict(limits)}
        keep = {"PATH", "PYTHONPATH", "LANG", "TMPDIR"}
        own = {
            "HOME": str(self.home),
            "PYTHONDONTWRITEBYTECODE": "1",
            "PYTHONUTF8": "1",
            "OPENBLAS_NUM_THREADS": "1",  # each of its threads reserves address space
        }
        with TemporaryFile() as out, TemporaryFile() as err:
            process = commands.start(
                words,
                out if stdout is None else stdout,
                err,
                cwd=self.folder,
                env={k: v for k, v in os.environ.items() if k in keep} | own | environ,
                limits=bounds.items(),
                whole=whole or commands.WHOLE or bool(limits) or "HOME" in environ,
            )
            code = ended(process, words)
            answer = Answer(code, text_of(out), text_of(err))
        assert answer.code in codes, answer
        for sign in ("Traceback", "mistake of its own", "Exception ignored", "object at 0x"):
            assert sign not in answer.out + answer.err, answer
        self.look_for_leftovers(answer)
        return answer

    def refused(self, *words, **how):
        """A command that can't be done: exit code 1 and one line that says why."""
        answer = self.run(*words, **how)
        assert answer.code == 1, answer
        errors = [line for line in answer.err.splitlines() if not line.startswith("Warning: ")]
        assert len(errors) == 1, answer
        assert errors[0].startswith("Error: "), answer
        return errors[0]

    def done(self, *words, **how):
        """A command that is done: exit code 0."""
        answer = self.run(*words, **how)
        assert answer.code == 0, answer
        return answer

    def look_for_leftovers(self, answer):
        left = [
            str(path)
            for path in self.folder.rglob("*")
            if path.name.endswith(LEFT) or path.name.startswith(".wellbook-")
        ]
        assert left == [], (left, answer)

    def snapshot(self):
        """What lies in the folder: each thing's kind and content."""
        return {str(path.relative_to(self.folder)): told(path) for path in self.folder.rglob("*")}


def ended(process, words):
    """The exit code of a command; one that waits and uses no processor is ended, and fails."""
    idle, used = 0, -1.0
    while True:
        try:
            return process.wait(timeout=LOOK)
        except subprocess.TimeoutExpired:
            now = processor_time(process.pid)
            idle, used = (idle + 1 if now == used else 0), now
        if idle == IDLE_LOOKS:
            process.kill()
            process.wait()
            raise AssertionError(f"{words} waits for something that does not come")


def processor_time(pid):
    """Ticks that a process and its children have used; a ready one counts as using some more."""
    total = 0.0
    for place in Path("/proc").glob("[0-9]*/stat"):
        try:
            number, rest = place.parent.name, place.read_text().rpartition(")")[2].split()
        except OSError:  # it has ended meanwhile
            continue
        if str(pid) in {number, rest[1]}:
            total += sum(map(int, rest[11:15]))
            if rest[0] in "RD":  # on a busy machine it waits for its turn
                total += random()
    return total


def text_of(file):
    file.seek(0)
    return file.read().decode("utf-8", "surrogateescape")


def told(path):
    """The kind of a thing and what it holds; a link is where it leads, it is never followed."""
    mode = path.lstat().st_mode
    if stat.S_ISLNK(mode):
        return f"link to {path.readlink()}"
    if stat.S_ISREG(mode):
        return hashlib.sha256(path.read_bytes()).hexdigest()
    return stat.filemode(mode)


def socket_at(path):
    """A socket that lies in the file system."""
    here = Path.cwd()
    os.chdir(path.parent)  # the name of a socket may not be longer than about a hundred bytes
    try:
        with closing(socket.socket(socket.AF_UNIX)) as one:
            one.bind(path.name)
    finally:
        os.chdir(here)
    return path
