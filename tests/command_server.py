"""A process that has loaded the program and makes a copy of itself for each command or journey.

A copy is a process of its own, with its own folder, environment, bounds and streams, and runs
`main` from beginning to end; only the loading of modules is shared, for a journey that of the
libraries. `commands.py` asks it.
"""

import atexit
import gc
import json
import os
import pkgutil
import resource
import socket
import sys
import time
import traceback
from importlib import import_module
from pathlib import Path

STREAMS = 3


def load():
    """Everything that a command without a window may load, and the reference data."""
    import readers

    import wellbook

    readers.install()

    for module in pkgutil.walk_packages(wellbook.__path__, "wellbook."):
        if module.name.startswith(("wellbook.window", "wellbook.__main__")):
            continue
        import_module(module.name)
    for name in ("matplotlib.backends.backend_agg", "matplotlib.backends.backend_pdf",
                 "matplotlib.backends.backend_svg", "pypdf", "openpyxl", "pint", "sqlite_utils",
                 "pypdf.filters", "pypdfium2", "fontTools.ttLib", "segno", "python_calamine",
                 "icalendar", "holidays.countries", "reportlab.platypus"):  # fmt: skip
        import_module(name)
    import_module("wellbook.cli.common_options").read_catalogue()


def load_libraries():
    """What a window loads that is not ours: a journey puts something in place of ours first."""
    sys.modules["pandas"] = None  # no household has it; sqlite-utils loads it where it is
    for name in ("PySide6.QtWidgets", "PySide6.QtPrintSupport", "PySide6.QtTest", "numpy",
                 "matplotlib.backends.backend_qtagg", "matplotlib.backends.backend_pdf", "click",
                 "pint", "sqlite_utils", "holidays.countries", "icalendar", "rapidfuzz", "openpyxl",
                 "segno", "pypdf", "pypdfium2", "reportlab.platypus"):  # fmt: skip
        import_module(name)


def serve(line):
    """Answer until nobody asks any more; in a copy, come back with what was asked."""
    while True:
        asked, streams, _flags, _address = socket.recv_fds(line, 1_000_000, STREAMS)
        if not asked:
            os._exit(0)
        pid = os.fork()
        if pid == 0:
            return json.loads(asked), streams
        for stream in streams:
            os.close(stream)
        line.sendall(f"{pid}\n".encode())
        _pid, status = os.waitpid(pid, 0)
        line.sendall(f"{os.waitstatus_to_exitcode(status)}\n".encode())


def become(asked, streams):
    """Take the folder, environment, streams and bounds that were asked for."""
    for number, stream in enumerate(streams):
        os.dup2(stream, number)
        os.close(stream)
    os.chdir(os.fsencode(asked["cwd"]))
    os.environ.clear()
    os.environ.update(asked["env"])
    for what, most in asked["limits"]:
        resource.setrlimit(what, (most, most))
    time.tzset()
    sys.argv = ["wellbook", *asked["words"]]


def of_commands():
    """Prepare for commands; returns what a copy runs."""
    load()
    return lambda: import_module("wellbook.cli.main").main


def of_journeys():
    """Prepare for journeys; returns what a copy runs."""
    load_libraries()
    sys.path.insert(0, str(Path(__file__).parent / "journeys" / "window"))
    return lambda: import_module("runner").main


def ended(command):
    """The exit code of a command, as Python's own end gives it; its modules are not taken down."""
    code = 0
    try:
        command()
    except SystemExit as end:
        code = end.code if isinstance(end.code, int) else int(end.code is not None)
    except BaseException:  # noqa: BLE001  as Python does at the top
        traceback.print_exc()
        code = 1
    atexit._run_exitfuncs()
    try:
        sys.stdout.flush()
    except OSError as error:
        sys.stderr.write(f"Exception ignored in stdout: {error}\n")
        code = 120
    sys.stderr.flush()
    return code


def main():
    line = socket.socket(fileno=int(sys.argv[1]))
    program = {"commands": of_commands, "journeys": of_journeys}[sys.argv[2]]()
    gc.freeze()
    asked, streams = serve(line)
    line.close()
    become(asked, streams)
    os._exit(ended(program()))


if __name__ == "__main__":
    main()
