"""Readers of documents, each in a process of its own, which was loaded in advance.

To load a reader takes longer than most readings do, so a server keeps them loaded and copies
itself (`reader_server.py`). `WELLBOOK_WHOLE_STARTS=1` starts Python for each reading instead; so
does every system but Linux, and every reader that is not named here.
"""

import atexit
import os
import socket
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor, wait
from contextlib import suppress
from pathlib import Path
from secrets import token_hex
from threading import Lock

from wellbook.sandbox import process

WHOLE = sys.platform != "linux" or bool(os.environ.get("WELLBOOK_WHOLE_STARTS"))
READERS = (
    "wellbook.intake.files.workbook_reader",
    "wellbook.packet.receive.reader_process",
    "wellbook.sandbox.document_search",
    "wellbook.sandbox.original_reader",
    "wellbook.sandbox.page_drawer",
    "wellbook.sandbox.page_reader",
)
LIBRARIES = ("pypdf", "pypdfium2", "openpyxl", "python_calamine")
_STARTING = Lock()
_ADDRESS = "WELLBOOK_TEST_READERS"
as_in_the_program = process._answered


def install():
    """Have this process ask the server."""
    if not WHOLE:
        process._answered = answered


def address():
    """Where the server is asked, if it is; the first process that wants to know starts it."""
    if WHOLE:
        return None
    with _STARTING:
        _start()
    return _name()


def _start():
    if _ADDRESS not in os.environ:
        os.environ[_ADDRESS] = f"@wellbook-readers-{os.getpid()}-{token_hex(4)}"
        with socket.socket(socket.AF_UNIX) as listener:
            listener.bind(_name())
            listener.listen()
            number = listener.fileno()
            server = subprocess.Popen(
                [sys.executable, Path(__file__).with_name("reader_server.py"), str(number),
                 *READERS, *LIBRARIES],
                stdin=subprocess.PIPE, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                pass_fds=[number], cwd=Path(__file__).parent.parent,
            )  # fmt: skip
        atexit.register(server.communicate)


def _name():
    """Linux knows addresses that lie in no folder; they begin with a zero."""
    return os.environ[_ADDRESS].replace("@", "\0", 1)


def answered(words, asked, longest, check_cancelled):
    """As the program's own: the exit code of a reader and what it wrote."""
    module = words[words.index(process._START) + 1]
    if module not in READERS:
        return as_in_the_program(words, asked, longest, check_cancelled)
    with Copy(module) as copy, ThreadPoolExecutor(1) as pool:
        answer = pool.submit(copy.communicate, asked, longest)
        try:
            while not wait([answer], process._GLANCE).done:
                check_cancelled()
            return answer.result()
        except BaseException:
            copy.kill()
            raise


class Copy:
    """A reader that runs in a copy of the server."""

    def __init__(self, module):
        self._line = socket.socket(socket.AF_UNIX)
        self._line.connect(address())
        self._talk, theirs = socket.socketpair()
        socket.send_fds(self._line, [module.encode()], [theirs.fileno()])
        theirs.close()
        self._told = self._line.makefile("r")
        self._pid = int(self._told.readline())

    def __enter__(self):
        return self

    def __exit__(self, *_):
        for one in (self._told, self._line, self._talk):
            one.close()

    def communicate(self, asked, longest):
        """Say what is asked, hear the answer to its end, and how the process ended."""
        self._talk.settimeout(longest or 0.001)
        parts = []
        try:
            with suppress(ConnectionError):  # it may end before it has heard all
                self._talk.sendall(asked)
                self._talk.shutdown(socket.SHUT_WR)
                while part := self._talk.recv(1_000_000):
                    parts.append(part)
        except TimeoutError:
            raise subprocess.TimeoutExpired("reader", longest) from None
        return int(self._told.readline()), b"".join(parts)

    def kill(self):
        with suppress(ProcessLookupError):
            os.kill(self._pid, 9)
