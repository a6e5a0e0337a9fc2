"""The bounds of a process that reads what somebody else made, set from inside of it."""

import faulthandler
import math
import os
import sys
import threading
import time
from contextlib import suppress
from pathlib import Path

from wellbook.sandbox.process import OUT_OF_MEMORY, Parcel

_LOOK = 0.05  # seconds between two looks at the memory
_DEEPEST = 500  # calls inside of calls; the half of what the process has that uses the answer


def received() -> Parcel:
    """What this process is asked, after it has bound itself."""
    stream = sys.stdin.buffer
    line = stream.readline()
    parcel = Parcel.unpacked(line)
    told = parcel.facts
    _bind(float(told["seconds"]), float(told["longest"]), int(told["memory"]))
    return Parcel(parcel.facts, stream.read())


def answer(parcel: Parcel) -> None:
    """Write the answer."""
    sys.stdout.buffer.write(parcel.packed())
    sys.stdout.buffer.flush()


def out_of_memory() -> None:
    """End at once, saying why."""
    os._exit(OUT_OF_MEMORY)


def _bind(seconds: float, longest: float, memory: int) -> None:
    sys.setrecursionlimit(_DEEPEST)
    # Ends the process even from within a library that never gives control back.
    nowhere = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115  as long as the process
    faulthandler.dump_traceback_later(longest, exit=True, file=nowhere)
    with suppress(OSError, ValueError, ImportError, AttributeError):
        if sys.platform == "win32":
            _bind_windows(seconds, memory)
        else:
            _bind_unix(seconds, memory)


def _bind_unix(seconds: float, memory: int) -> None:
    import resource

    most = math.ceil(seconds)
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))  # ended by a signal, it leaves nothing behind
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))  # it writes no file
    resource.setrlimit(resource.RLIMIT_CPU, (most, most + 1))
    threading.Thread(target=_watch, args=(memory,), daemon=True).start()
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))


def _watch(memory: int) -> None:
    """Where the system doesn't hold a process to its bound (macOS), it ends itself."""
    import resource

    unit = 1 if sys.platform == "darwin" else 1024
    while resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit < memory:
        time.sleep(_LOOK)
    out_of_memory()


def _bind_windows(seconds: float, memory: int) -> None:
    """A job object holds the process to its bounds: out of time it is ended, of memory refused."""
    import ctypes

    wide, whole, size = ctypes.c_int64, ctypes.c_uint32, ctypes.c_size_t
    # JOBOBJECT_EXTENDED_LIMIT_INFORMATION, as the Windows API has it.
    fields = [
        ("process_time", wide), ("job_time", wide), ("flags", whole), ("least_set", size),
        ("most_set", size), ("processes", whole), ("affinity", size), ("priority", whole),
        ("scheduling", whole), ("transfers", ctypes.c_uint64 * 6), ("process_memory", size),
        ("job_memory", size), ("process_peak", size), ("job_peak", size),
    ]  # fmt: skip
    bound = type("_Bound", (ctypes.Structure,), {"_fields_": fields})()
    # JOB_OBJECT_LIMIT_PROCESS_MEMORY and JOB_OBJECT_LIMIT_PROCESS_TIME, in 100 ns.
    bound.flags = 0x100 | 0x2
    bound.process_memory, bound.process_time = memory, int(seconds * 10_000_000)
    kernel = ctypes.WinDLL("kernel32", use_last_error=True)  # type: ignore[attr-defined,unused-ignore]
    kernel.CreateJobObjectW.restype = kernel.GetCurrentProcess.restype = ctypes.c_void_p
    job = ctypes.c_void_p(kernel.CreateJobObjectW(None, None))
    kernel.SetInformationJobObject(job, 9, ctypes.byref(bound), ctypes.sizeof(bound))
    kernel.AssignProcessToJobObject(job, ctypes.c_void_p(kernel.GetCurrentProcess()))
