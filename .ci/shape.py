"""Hold the shape of the code: top level, size of modules and folders, no forbidden names.

python .ci/shape.py             what is broken, and an exit code
python .ci/shape.py --figures   the tree in figures
"""

import re
import subprocess
import sys
from collections import Counter
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parent.parent
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "wellbook", "resources", "tests"}
TOP |= {"sample_wells"}
LONGEST = 400  # lines a module
FULLEST = 15  # modules a folder, without its `__init__`
REFUSED = {"utils", "util", "helper", "helpers", "manager", "managers", "misc"}


def listing() -> list[str]:
    """Every file that git knows and that is there."""
    run = subprocess.run(
        ["git", "ls-files"],  # noqa: S607
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    )
    return [line for line in run.stdout.splitlines() if (ROOT / line).is_file()]


def lengths(files: list[str], top: str) -> dict[str, int]:
    """Lines of each Python file under a top folder."""
    return {
        file: len((ROOT / file).read_text(encoding="utf-8").splitlines())
        for file in files
        if file.startswith(f"{top}/") and file.endswith(".py")
    }


def folders(modules: dict[str, int]) -> Counter[str]:
    """How many modules each folder holds, without its `__init__`."""
    return Counter(file.rpartition("/")[0] for file in modules if not file.endswith("/__init__.py"))


def faults(files: list[str]) -> list[str]:
    """Every breach in words."""
    found = [
        f"top level: {name}"
        for name in sorted({line.split("/")[0] for line in files})
        if name not in TOP and not name.startswith(".")
    ]
    modules = lengths(files, "wellbook")
    for file, length in modules.items():
        if length > LONGEST:
            found.append(f"{file} has {length} lines, more than {LONGEST}")
        if Path(file).stem in REFUSED:
            found.append(f"{file}: name it for what it holds")
    for folder, count in sorted(folders(modules).items()):
        if count > FULLEST:
            found.append(f"{folder} holds {count} modules, more than {FULLEST}")
    return found + hidden(lengths(files, "tests"))


def hidden(tests: dict[str, int]) -> list[str]:
    """Test modules that one run can take for one another, as test folders are no packages."""
    names = Counter(Path(file).name for file in tests)
    found = [f"{count} test modules are called {name}" for name, count in names.items()
             if count > 1 and name != "conftest.py"]  # fmt: skip
    return found + [
        f"{file}: import from a module with a name of its own, there are several conftest.py"
        for file in tests
        if re.search(r"^(from|import) conftest\b", (ROOT / file).read_text("utf-8"), re.MULTILINE)
    ]


def figures(files: list[str]) -> str:
    """The tree in figures: folders, modules a folder, longest module, lines."""
    modules = lengths(files, "wellbook")
    held = folders(modules)
    fullest = max(held, key=lambda folder: held[folder])
    longest = max(modules, key=lambda file: modules[file])
    lines = [
        f"folders: {len(held)}",
        f"modules: {sum(held.values())} (and {len(modules) - sum(held.values())} __init__)",
        f"modules a folder: median {median(held.values()):g}, most {held[fullest]} ({fullest})",
        f"longest module: {modules[longest]} lines ({longest})",
        f"lines in wellbook: {sum(modules.values()):,}",
        f"lines in tests: {sum(lengths(files, 'tests').values()):,}",
        *(f"  {count:3} {folder}" for folder, count in sorted(held.items())),
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    tracked = listing()
    if "--figures" in sys.argv[1:]:
        print(figures(tracked))  # noqa: T201
        sys.exit()
    breaches = faults(tracked)
    print("\n".join(breaches) or "shape: kept")  # noqa: T201
    sys.exit(bool(breaches))
