"""Hold the shape of the code: the card's top level, the size of modules, no forbidden names."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "wellbook", "resources", "tests"}
TOP |= {"sample_wells"}
LONGEST = 400
REFUSED = {"utils", "util", "helper", "helpers", "manager", "managers", "misc", "common"}


def faults() -> list[str]:
    """Every breach in words."""
    listing = subprocess.run(
        ["git", "ls-files"],  # noqa: S607
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    ).stdout.splitlines()
    found = [
        f"top level: {name}"
        for name in sorted({line.split("/")[0] for line in listing})
        if name not in TOP and not name.startswith(".")
    ]
    for line in listing:
        path = ROOT / line
        if line.startswith("wellbook/") and path.suffix == ".py":
            length = len(path.read_text(encoding="utf-8").splitlines())
            if length > LONGEST:
                found.append(f"{line} has {length} lines, more than {LONGEST}")
            if path.stem in REFUSED:
                found.append(f"{line}: name it for what it holds")
    return found


if __name__ == "__main__":
    breaches = faults()
    print("\n".join(breaches) or "shape: kept")  # noqa: T201
    sys.exit(bool(breaches))
