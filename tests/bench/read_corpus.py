"""How much of a corpus of unseen layouts is read right, a line for each kind of file.

python tests/bench/read_corpus.py            the half that may be looked at
python tests/bench/read_corpus.py --held     the half that is held back
python tests/bench/read_corpus.py -v NAME    what is missing and what is wrong in some files
python tests/bench/read_corpus.py --scans    scans and photos, with the extra that reads them
python tests/bench/read_corpus.py --lots 1   files put together by lot from a seed, in their place
"""

import re
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from datetime import date
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent / "corpus"), str(Path(__file__).parent)]

import by_lot  # noqa: E402
import corpus  # noqa: E402
import scans  # noqa: E402
from facts import LabFile, Truth  # noqa: E402

from wellbook import intake  # noqa: E402
from wellbook.support import paths  # noqa: E402
from wellbook.support.errors import Fault  # noqa: E402
from wellbook.water.values.catalogue import read_catalogue  # noqa: E402
from wellbook.water.values.readings import Kind  # noqa: E402
from wellbook.water.values.signs import folded  # noqa: E402

TODAY = date(2026, 3, 1)
_AFTER_A_SIGN = re.compile(r"^([<>≤≥])\s+")  # `< 1,0` and `<1,0` are the same figure
_SIGNS = {Kind.BELOW: "<", Kind.ABOVE: ">"}
_UNDETECTED = re.compile(r"^<|^ND\b|\bU$")  # what must not be taken for a figure that was found
_WITH_LIMIT = re.compile(r"^(ND) \(.+\)$")  # the limit may stand by itself
COLUMNS = (
    *("files", "figures", "right", "wrong", "asked", "lost", "refused", "certain", "untrue"),
    "other point",
)


def measured(
    file: LabFile, folder: Path, catalogue: object, *, verbose: bool = False
) -> Counter[str]:
    """Figures right, wrong, asked about, silently lost; and how true what is called certain is.

    `other point`: certain ones at another sampling point than the file tells, or at none where it
    tells of several.
    """
    path = folder / file.name
    path.write_bytes(file.content)
    count = Counter(files=1, figures=len(file.truths))
    try:
        how = {"password": file.password} if file.password else {}
        draft = intake.read(path, catalogue, today=TODAY, **how)
    except Fault as fault:
        if verbose:
            print(f"  {file.name}: {fault}")  # noqa: T201
        return count + Counter(refused=1, asked=len(file.truths))
    taken = [(sample, result) for sample in draft.samples for result in sample.sample.results]
    open_truths = sorted(file.truths, key=lambda truth: truth.key == "?")  # these fit any name
    marks = iter([mark for sample in draft.samples for mark in sample.marks])
    are_several = len({truth.point for truth in file.truths} - {""}) > 1
    for sample, result in taken:
        fits = [truth for truth in open_truths if _fits(truth, sample, result)]
        fits.sort(key=lambda t, at=sample: (t.key == "?", not _is_at(t, at)))
        found = next(iter(fits), None)
        is_certain = next(marks).is_certain and not draft.stops
        if found:
            open_truths.remove(found)
        count["right" if found else "wrong"] += 1
        count["certain"] += is_certain
        count["untrue"] += is_certain and not found
        is_told = bool(sample.point_name) or are_several
        is_other = bool(found) and is_told and not _is_at(found, sample)
        count["other point"] += is_certain and is_other
        if verbose and is_certain and is_other:
            print(f"  {file.name}: POINT {result.name}={result.reading.text} "  # noqa: T201
                  f"of {found.point!r} at {sample.point_name!r}")  # fmt: skip
        if verbose and not found:
            print(f"  {file.name}: WRONG {result.name}={result.reading.text} {result.reading.unit} "  # noqa: T201
                  f"-> {result.parameter} {sample.sample.collected.iso()}")  # fmt: skip
    aside = [left.what for left in draft.not_taken]
    for truth in open_truths:
        told = next((what for what in aside if _tells(what, truth)), None)
        if told is not None:
            aside.remove(told)
        was_told = told is not None or bool(draft.stops)
        count["asked" if was_told else "lost"] += 1
        if verbose:
            print(f"  {file.name}: {'ASKED' if was_told else 'LOST'} {truth}")  # noqa: T201
    return count


def _fits(truth: Truth, sample: object, result: object) -> bool:
    day = sample.sample.collected.iso()[:10]
    if day.startswith("0001"):
        day = ""
    name_fits = truth.key in {result.parameter, "?"}
    day_fits = truth.key == "?" or not truth.day or day == truth.day
    return name_fits and day_fits and _says(result.reading, truth)


def _is_at(truth: Truth, sample: object) -> bool:
    """Whether a sample is of the point that a truth tells, if it tells any."""
    return folded(truth.point) in folded(sample.point_name)


def _says(reading: object, truth: Truth) -> bool:
    """Whether it is the same statement, also where its sign or its limit is kept apart.

    Its unit may stand behind it, as printed.
    """
    text, sign = truth.text, _SIGNS.get(reading.kind, "")
    found = reading.text.strip().removesuffix(f" {truth.unit}" if truth.unit else "")
    is_undetected = _UNDETECTED.search(text) is not None
    if text[:1].isdigit() and not is_undetected and reading.kind is Kind.BELOW:
        return False
    if found == text:
        return True
    if is_undetected and reading.kind not in {Kind.BELOW, Kind.ABSENT}:
        return False
    if sign and text.startswith(sign) and not found.startswith(sign):
        return _same(found, text[1:].strip())
    if reading.kind is Kind.BELOW and (limit := _WITH_LIMIT.match(text)):
        return found.upper() in {text.upper(), limit[1].upper()}
    return _same(found, text)


def _tells(what: str, truth: Truth) -> bool:
    """Whether a cell that was not taken holds the figure, alone or with its unit behind."""
    cell, text = (_AFTER_A_SIGN.sub(r"\1", " ".join(one.split())) for one in (what, truth.text))
    return cell in {text, f"{text} {truth.unit}"}


def _same(found: str, text: str) -> bool:
    """Whether it is the same figure; a workbook keeps no zeros at the end, a line no own unit."""
    found, text = (_AFTER_A_SIGN.sub(r"\1", one).rstrip("*") for one in (found, text))
    if found[:1] in "<0123456789" or "/" in found:
        found, text = found.partition(" ")[0], text.partition(" ")[0]
    try:
        return found == text or float(found) == float(text)
    except ValueError:
        return False


def _files() -> Iterator[LabFile]:
    """The corpus that is asked for, or its half."""
    held = "--held" in sys.argv
    if "--scans" in sys.argv:
        yield from scans.scans()
        return
    is_by_lot = "--lots" in sys.argv
    seed = sys.argv[sys.argv.index("--lots") + 1] if is_by_lot else ""
    for file in by_lot.files(seed) if is_by_lot else corpus.files():
        if file.is_held_back == held:
            yield file


def main() -> None:
    """Print the table."""
    catalogue = read_catalogue(paths.resources())
    verbose = "-v" in sys.argv
    after = sys.argv[sys.argv.index("-v") + 1 :] if verbose else []
    wanted = after[0] if after else ""
    table: dict[str, Counter[str]] = {}
    with tempfile.TemporaryDirectory() as folder:
        for file in _files():
            if wanted in file.name:
                found = measured(file, Path(folder), catalogue, verbose=verbose)
                table.setdefault(file.group, Counter()).update(found)
                table.setdefault("all", Counter()).update(found)
    wide = {column: max(9, len(column) + 2) for column in COLUMNS}
    print(f"{'':16}" + "".join(f"{column:>{n}}" for column, n in wide.items()))  # noqa: T201
    for group in sorted(table, key=lambda group: group == "all"):
        told = (f"{table[group][column]:{n}}" for column, n in wide.items())
        print(f"{group:16}" + "".join(told))  # noqa: T201


if __name__ == "__main__":
    main()
