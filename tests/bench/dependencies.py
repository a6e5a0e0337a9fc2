"""What Wellbook needs to run: licence, size on disk, what for, what was refused in its place.

    python tests/bench/dependencies.py          # in the environment that Wellbook is installed in

Prints the table of DEVELOPERS.md. Names and licences are those of the installed libraries' own
metadata, sizes those of their files (compiled Python apart); why each is there says
`dependencies.csv`.
"""

import csv
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parents[2]
_MB = 1e6
# As the licences' own texts are called, where a library names only its kind.
_SHORT = {
    "BSD License": "BSD",
    "MIT License": "MIT",
    "Apache Software License": "Apache-2.0",
    "Apache License, Version 2.0": "Apache-2.0",
    "Python Software Foundation License": "PSF",
}
# An installer is in every environment, and none of ours calls it.
_NOT_OURS = frozenset({"pip"})


@dataclass(frozen=True, slots=True)
class Library:
    """One installed library.

    Attributes:
        name: As the registry spells it.
        version: The installed one.
        licence: Its SPDX expression, or what its metadata says instead.
        megabytes: Size of its files.
        brings: Names of what it needs in turn.
    """

    name: str
    version: str
    licence: str
    megabytes: float
    brings: tuple[str, ...]


def required() -> list[str]:
    """Names of what `pyproject.toml` asks for at run time on this system."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    return list(dict.fromkeys(map(_key, _needed(project["dependencies"]))))


def libraries() -> dict[str, Library]:
    """Every library that is installed for Wellbook, by its plain name, those asked for first."""
    found: dict[str, Library] = {}
    waiting = required()
    for name in waiting:  # it grows while it is gone through
        if name not in found:
            found[name] = _library(name)
            waiting += map(_key, found[name].brings)
    return found


def reasons() -> dict[str, dict[str, str]]:
    """Why each library is there, by its plain name."""
    with Path(__file__).with_suffix(".csv").open(encoding="utf-8", newline="") as file:
        return {_key(row["library"]): row for row in csv.DictReader(file)}


def table() -> Iterator[str]:
    """The lines of the table, what is asked for first; then what that brings."""
    every, why, asked = libraries(), reasons(), required()
    yield "| library | licence | MB | for | refused |"
    yield "| --- | --- | ---: | --- | --- |"
    for name in asked:
        library, row = every[name], why[name]
        size = f"{library.megabytes:.1f}"
        yield f"| {row['library']} | {library.licence} | {size} | {row['for']} | {row['refused']} |"
    brought = sorted((one for key, one in every.items() if key not in asked), key=lambda o: o.name)
    told = ", ".join(f"{one.name} ({one.licence}, {one.megabytes:.1f})" for one in brought)
    total = sum(one.megabytes for one in every.values())
    yield ""
    yield f"They bring: {told}. Together {total:.0f} MB."


def _needed(requirements: list[str]) -> list[str]:
    read = map(Requirement, requirements)
    return [one.name for one in read if not one.marker or one.marker.evaluate({"extra": ""})]


def _key(name: str) -> str:
    return name.lower().replace("_", "-")


def _library(name: str) -> Library:
    told = metadata.metadata(name)
    files = [file.locate() for file in metadata.files(name) or () if file.suffix != ".pyc"]
    size = sum(Path(str(file)).stat().st_size for file in files if Path(str(file)).exists())
    brings = [n for n in _needed(metadata.requires(name) or []) if _key(n) not in _NOT_OURS]
    return Library(
        told["Name"], told["Version"], licence(told), size / _MB, tuple(dict.fromkeys(brings))
    )


def licence(told: metadata.PackageMetadata) -> str:
    """What a library says of its licence, in few words."""
    if said := told.get("License-Expression"):
        return str(said)
    named = [
        line.rpartition(" :: ")[2]
        for line in told.get_all("Classifier") or []
        if line.startswith("License :: ") and line != "License :: OSI Approved"
    ]
    words = named or [str(told.get("License") or "").split("\n", maxsplit=1)[0]]
    return ", ".join(_SHORT.get(word, word) for word in words)


if __name__ == "__main__":
    sys.stdout.write("\n".join(table()) + "\n")
