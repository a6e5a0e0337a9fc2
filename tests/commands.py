"""Commands as they are typed, and journeys: each in a process of its own, loaded in advance.

Loading the program's modules takes longer than most commands do, so a server keeps them loaded
and copies itself (`command_server.py`). `WELLBOOK_WHOLE_STARTS=1` starts Python for each command
instead; so does Windows, and every test of starting itself.
"""

import atexit
import json
import os
import signal
import socket
import subprocess
import sys
from functools import cache
from pathlib import Path
from tempfile import TemporaryFile

import readers

WHOLE = sys.platform == "win32" or bool(os.environ.get("WELLBOOK_WHOLE_STARTS"))
UTF8 = {"PYTHONUTF8": "1", "PYTHONDONTWRITEBYTECODE": "1", "OPENBLAS_NUM_THREADS": "1"}


def run(*words, cwd=None, env=None, check=False):
    """Type a command and wait for it.

    Returns:
        The finished process with exit code and what it wrote, as `subprocess.run` gives it.
    """
    words = [str(word) for word in words]
    with TemporaryFile() as out, TemporaryFile() as err:
        code = start(words, out, err, cwd=cwd, env=env).wait()
        texts = [_text(out), _text(err)]
    done = subprocess.CompletedProcess(["wellbook", *words], code, *texts)
    if check:
        done.check_returncode()
    return done


def start(words, out, err, *, cwd=None, env=None, limits=(), whole=WHOLE):
    """Begin a command; the answer has `pid`, `wait` and `kill` as a process of `subprocess` has.

    Args:
        words: What is typed after the name of the program.
        out: File that takes what it says.
        err: File that takes what goes wrong.
        cwd: Its folder.
        env: Its environment.
        limits: Pairs of a resource and its bound.
        whole: Whether Python is started for it.
    """
    env = {name: str(value) for name, value in (os.environ if env is None else env).items()}
    if whole:
        return _whole(words, out, err, cwd, env, limits)
    return server("commands").start(words, out, err, cwd or Path.cwd(), env, limits)


def _whole(words, out, err, cwd, env, limits):
    def bound():
        import resource

        for what, most in limits:
            resource.setrlimit(what, (most, most))

    return subprocess.Popen(
        [sys.executable, "-m", "wellbook", *words],
        stdin=subprocess.DEVNULL, stdout=out, stderr=err, cwd=cwd, env=env,
        preexec_fn=bound if limits else None,  # noqa: PLW1509  this process has one thread
    )  # fmt: skip


def _text(file):
    file.seek(0)
    return file.read().decode("utf-8", "surrogateescape")


@cache
def server(kind):
    """The server of `commands` or of `journeys`."""
    return Server(kind)


class Server:
    """The process that copies itself, for one command at a time; it ends with this one."""

    def __init__(self, kind):
        readers.address()  # one server for both
        self._line, theirs = socket.socketpair()
        self._said = b""
        self._process = subprocess.Popen(
            [sys.executable, Path(__file__).with_name("command_server.py"),
             str(theirs.fileno()), kind],
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, pass_fds=[theirs.fileno()],
            cwd=Path(__file__).parent.parent, env=os.environ | UTF8,
        )  # fmt: skip
        theirs.close()
        atexit.register(self.end)

    def end(self):
        self._line.close()
        self._process.wait()

    def start(self, words, out, err, cwd, env, limits):
        asked = {"words": words, "cwd": str(cwd), "env": env, "limits": [*limits]}
        with open(os.devnull) as nothing:  # noqa: PTH123
            streams = [s if isinstance(s, int) else s.fileno() for s in (nothing, out, err)]
            socket.send_fds(self._line, [json.dumps(asked).encode()], streams)
        return Copy(self.answer(), self)

    def answer(self, timeout=None):
        """The next number that the server says.

        Raises:
            TimeoutError: It says nothing for so many seconds.
        """
        self._line.settimeout(timeout)
        while b"\n" not in self._said:
            part = self._line.recv(100)
            assert part, "the server of commands has ended"
            self._said += part
        number, _, self._said = self._said.partition(b"\n")
        return int(number)


class Copy:
    """A command that runs in a copy of the server."""

    def __init__(self, pid, server):
        self.pid, self._server = pid, server

    def wait(self, timeout=None):
        try:
            return self._server.answer(timeout)
        except TimeoutError:
            raise subprocess.TimeoutExpired("wellbook", timeout) from None

    def kill(self):
        os.kill(self.pid, signal.SIGKILL)
