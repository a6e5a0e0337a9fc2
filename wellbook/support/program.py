"""How this program is started again: as a module of an interpreter, or as a bundle of its own."""

import sys
from pathlib import Path

READ = "--read-for-wellbook"  # first word of a bundle's process that reads for another one


def is_bundle() -> bool:
    """Whether this runs from a bundle, which has no interpreter to be told anything."""
    return bool(getattr(sys, "frozen", False))


def itself() -> list[str]:
    """The words that start Wellbook again, without a console window where the system has two."""
    program = Path(sys.executable)
    if is_bundle():
        return [str(program)]
    windowless = program.with_name("pythonw.exe")
    if sys.platform == "win32" and windowless.exists():
        program = windowless
    return [str(program), "-m", "wellbook"]


def reader(module: str, start: str) -> list[str]:
    """The words that start a process which runs `main` of one of our modules.

    Args:
        module: Full name of the module.
        start: What an interpreter is told: it takes the module and the folders of modules.
    """
    if is_bundle():
        return [sys.executable, READ, module]
    return [sys.executable, "-P", "-X", "utf8", "-c", start, module, *sys.path]
