"""Commands that tests type, run in copies of the process that types them.

Tests ask a server that has loaded the program (`tests/commands.py`); a change that is put in place
in this process would not be there. A copy of this process has it, and notes the lines it runs.
"""

from __future__ import annotations

import atexit
import os
import pickle
import sys
import traceback
import warnings
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from coverage import Coverage

_AWAY = "away"
_STREAMS = 3


class CommandsHere:
    """Stands in place of the server of commands; journeys in the window keep theirs.

    Attributes:
        cover: What watches lines, if they are watched.
        folder: Takes what copies say of their lines.
        lines: Context, file and the lines of it that commands have run.
    """

    def __init__(self, folder: Path, cover: Coverage | None = None) -> None:
        self.folder, self.cover = folder, cover
        self.context = ""
        self.lines: dict[str, dict[str, set[int]]] = {}

    def install(self) -> None:
        """Have tests start their commands here."""
        sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
        import commands

        before = commands.server
        commands.server = lambda kind: self if kind == "commands" else before(kind)

    def start(
        self,
        words: Sequence[str],
        out: Any,
        err: Any,
        cwd: Path,
        env: Mapping[str, str],
        limits: Sequence[tuple[int, int]],
    ) -> _Copy:
        """Begin a command, as the server does."""
        from wellbook.cli.common_options import read_catalogue

        read_catalogue()  # once for all copies
        sys.stdout.flush()
        sys.stderr.flush()
        pid = os.fork()
        if pid:
            return _Copy(pid, self)
        code = 1
        try:
            code = self._become(words, out, err, cwd, env, limits)
        except BaseException:  # noqa: BLE001  the copy ends here
            traceback.print_exc()
        finally:
            sys.stderr.flush()
            os._exit(code)

    def _become(self, words, out, err, cwd, env, limits) -> int:
        import command_server

        atexit._clear()  # the tests' own
        if self.cover:
            self.cover.switch_context(_AWAY)
        with Path(os.devnull).open() as nothing:
            files = (s if isinstance(s, int) else s.fileno() for s in (nothing, out, err))
            streams = [os.dup(number) for number in files]
        asked = {"words": words, "cwd": str(cwd), "env": dict(env), "limits": limits}
        command_server.become(asked, streams)
        from wellbook.cli.main import main

        code = command_server.ended(main)
        if self.cover:
            self._note(self.cover)
        return code

    def _note(self, cover: Coverage) -> None:
        cover.stop()
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # a command may run no line that is watched
            data = cover.get_data()
        data.set_query_context(_AWAY)
        lines = {file: set(data.lines(file) or ()) for file in data.measured_files()}
        (self.folder / f"away-{os.getpid()}").write_bytes(pickle.dumps(lines))

    def heard(self, pid: int) -> None:
        """Take what a copy said of its lines."""
        path = self.folder / f"away-{pid}"
        if self.cover and path.exists():
            of = self.lines.setdefault(self.context, {})
            for file, lines in pickle.loads(path.read_bytes()).items():  # noqa: S301  our own
                of.setdefault(file, set()).update(lines)
            path.unlink()


class _Copy:
    def __init__(self, pid: int, here: CommandsHere) -> None:
        self.pid, self._here = pid, here

    def wait(self, timeout: float | None = None) -> int:  # noqa: ARG002  the caller's own bound
        _pid, status = os.waitpid(self.pid, 0)
        self._here.heard(self.pid)
        return os.waitstatus_to_exitcode(status)

    def kill(self) -> None:
        os.kill(self.pid, 9)
