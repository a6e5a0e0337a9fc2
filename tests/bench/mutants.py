"""How many small changes to `wellbook.water`, or to another package, the tests notice.

    python tests/bench/mutants.py verdicts.judge verdicts.compare --sample 25
    python tests/bench/mutants.py > survivors.txt             (every module, every change)
    python tests/bench/mutants.py --again survivors.txt       (those only, with new tests)

    WELLBOOK_MUTATED=book WELLBOOK_MUTANT_TESTS=tests/book python tests/bench/mutants.py --lots 40

Each change (see `changes.py`) is compiled in memory; no file is touched. A process that has
collected all tests forks for each change, puts the changed function in place, and runs the tests
that reach the changed line, quickest first, up to the first that fails. What runs while modules
are imported can't be changed afterwards: there the fork starts pytest anew with the changed module.
Hypothesis draws the same examples every time. Changes that can't matter are listed with their
reason in `equivalent_mutants.csv`.
"""

from __future__ import annotations

import argparse
import contextlib
import csv
import faulthandler
import importlib
import inspect
import math
import os
import pickle
import random
import re
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections import Counter, defaultdict
from dataclasses import dataclass, field
from importlib.machinery import SourceFileLoader
from importlib.util import spec_from_file_location
from pathlib import Path
from types import CodeType, FunctionType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pytest import Session  # noqa: PT013  a type only

ROOT = Path(__file__).resolve().parents[2]
# What is changed, and the tests that are asked; another package and tests are named on request.
PACKAGE = os.environ.get("WELLBOOK_MUTATED", "water")
WATER = ROOT.joinpath("wellbook", *PACKAGE.split("."))
TESTS = tuple(os.environ.get("WELLBOOK_MUTANT_TESTS", "tests/water tests/reference").split())
_DOTTED = f"wellbook.{PACKAGE}"
EQUIVALENT = Path(__file__).with_name("equivalent_mutants.csv")
_IMPORTING = "import"  # coverage's word for lines run while modules are imported
_KILLED, _SURVIVED, _UNREACHED, _EQUIVALENT = "killed", "survived", "not reached", "equivalent"
_SURVIVOR = re.compile(r"^\.*(\w[\w.]*)\.py:\d+ ([\w.]*): (.*?)   \[", re.MULTILINE)
_LONGEST_MEASURE = 3600  # seconds; a busy computer takes its time
_LARGEST = 3 << 30  # bytes; a mutant may ask for memory without end
_OPTIONS = ["-x", "-q", "-s", "--no-header", "-p", "no:randomly", "-p", "no:cacheprovider"]
_OPTIONS += [
    "-W",
    "ignore::pytest.PytestAssertRewriteWarning",
    "-p",
    "no:cov",
    "-o",
    "timeout=0",
    "--tb=short",
    "-m",
    "not bench",
]

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(ROOT))
from changes import Mutant, mutants  # noqa: E402  it lies beside this file
from commands_here import CommandsHere  # noqa: E402


@dataclass
class Reach:
    """Which tests run which lines, and how long they take.

    Attributes:
        tests_of: Module, line and the tests that run it.
        early: Module and the lines that run while tests are collected.
        seconds: How long each test takes.
    """

    tests_of: dict[str, dict[int, set[str]]] = field(default_factory=dict)
    early: dict[str, set[int]] = field(default_factory=dict)
    seconds: dict[str, float] = field(default_factory=dict)

    def order(self, name: str, mutant: Mutant) -> list[str]:
        """The tests that run a changed line, quickest first; of import lines, the module's."""
        found = self._reached(name, mutant.lines)
        if not found & self.seconds.keys():
            importers = _importers(name)
            lines = (lines for module in importers for lines in self.tests_of[module].values())
            found = set().union(*lines)
            files = _naming(name)
            found |= {test for test in self.seconds if test.split("::")[0] in files}
        return sorted(found & self.seconds.keys(), key=lambda test: self.seconds[test])

    def is_early(self, name: str, mutant: Mutant) -> bool:
        """Whether a changed line has run before any test starts."""
        first, last = mutant.lines
        return any(first <= line <= last for line in self.early.get(name, ()))

    def _reached(self, name: str, lines: tuple[int, int]) -> set[str]:
        of = self.tests_of.get(name, {})
        return set().union(*(of.get(line, ()) for line in range(lines[0], lines[1] + 1)))


class Watching:
    """A plugin of pytest: notes the tests that run each line."""

    def __init__(self, folder: Path) -> None:
        import coverage

        self.cover = coverage.Coverage(data_file=None, include=[f"{WATER}/*"])
        self.seconds: dict[str, float] = {}
        self.shared: dict[str, set[str]] = defaultdict(set)  # context of a fixture → its tests
        self.commands = CommandsHere(folder, self.cover)
        self.commands.install()

    def within(self, context: str) -> None:
        _forget()
        self.commands.context = context
        self.cover.switch_context(context)

    def reach(self) -> Reach:
        data, reach = self.cover.get_data(), Reach(seconds=self.seconds)
        for file in data.measured_files():
            name = ".".join(Path(file).relative_to(WATER).with_suffix("").parts)
            lines = data.contexts_by_lineno(file)
            reach.tests_of[name] = {
                line: set().union(*(self.shared.get(c, {c}) for c in contexts))
                for line, contexts in lines.items()
            }
            reach.early[name] = {
                line
                for line, contexts in lines.items()
                if any(context.startswith(("file ", _IMPORTING)) for context in contexts)
            }
        for context, files in self.commands.lines.items():
            for file, lines in files.items():
                name = ".".join(Path(file).relative_to(WATER).with_suffix("").parts)
                for line in lines:
                    tests = reach.tests_of[name].setdefault(line, set())
                    tests |= self.shared.get(context, {context})
        return reach


Known = dict[tuple[str, str, str], str]


@dataclass(frozen=True)
class Row:
    """What became of the mutants of a module."""

    name: str
    tried: int
    counts: Counter[str]

    def __str__(self) -> str:
        left = self.counts[_SURVIVED] + self.counts[_UNREACHED]
        figures = (self.tried, self.counts[_KILLED], self.counts[_EQUIVALENT], left)
        return f"| {self.name} | {' | '.join(map(str, figures))} |"


def _hooks(watching: Watching) -> object:
    import pytest

    class Hooks:
        @pytest.hookimpl(wrapper=True)
        def pytest_make_collect_report(self, collector):
            watching.within(f"file {collector.nodeid}")
            return (yield)

        @pytest.hookimpl(wrapper=True)
        def pytest_fixture_setup(self, fixturedef, request):
            if fixturedef.scope == "function":
                return (yield)
            before = request.node.nodeid
            watching.within(f"fixture {fixturedef.baseid} {fixturedef.argname}")
            try:
                return (yield)
            finally:
                watching.within(watching.test or before)

        @pytest.hookimpl(wrapper=True)
        def pytest_runtest_protocol(self, item):
            watching.test = item.nodeid
            watching.within(item.nodeid)
            watching.shared[f"file {item.nodeid.split('::')[0]}"].add(item.nodeid)
            for definitions in item._fixtureinfo.name2fixturedefs.values():
                for one in definitions:
                    watching.shared[f"fixture {one.baseid} {one.argname}"].add(item.nodeid)
            start = time.perf_counter()
            try:
                return (yield)
            finally:
                watching.seconds[item.nodeid] = time.perf_counter() - start

    return Hooks()


class Serving:
    """A plugin of pytest: hands all collected tests to `work` instead of running them."""

    def __init__(self, work: Callable[[Session], None]) -> None:
        self.work = work

    def pytest_runtestloop(self, session: Session) -> bool:
        self.work(session)
        return True


class Chosen:
    """A plugin of pytest: runs the chosen tests only, quickest first."""

    def __init__(self, order: Sequence[str]) -> None:
        self.order = {name: number for number, name in enumerate(order)}

    def pytest_collection_modifyitems(self, items: list) -> None:
        items[:] = [item for item in items if item.nodeid in self.order]
        items.sort(key=lambda item: self.order[item.nodeid])


class Replaced:
    """A finder of modules: hands out changed code for one of them."""

    def __init__(self, name: str, mutant: Mutant) -> None:
        self.name, self.mutant = name, mutant

    def find_spec(self, name, path=None, target=None):  # noqa: ARG002  the import system's words
        if name != self.name:
            return None
        file = str(_file(name.removeprefix(f"{_DOTTED}.")))
        loader = type("Loader", (SourceFileLoader,), {"get_code": lambda *_: self.mutant.code})
        return spec_from_file_location(name, file, loader=loader(name, file))


def main() -> None:
    """Measure, and print a line for each survivor and a table."""
    asked = _arguments()
    os.chdir(ROOT)
    places = {"TMPDIR": tempfile.mkdtemp(prefix="mutants-"), "PYTHONDONTWRITEBYTECODE": "1"}
    os.environ.update(places, OPENBLAS_NUM_THREADS="1", OMP_NUM_THREADS="1")
    tempfile.tempdir = places["TMPDIR"]
    try:
        _warm_up()
        folder = Path(places["TMPDIR"])
        reach = _kept(asked.reach, lambda: _measured(folder))
        reach.seconds = {t: took for t, took in reach.seconds.items() if took <= asked.longest}
        names = asked.modules or _modules()
        chosen = _by_lot({name: _chosen(name, asked) for name in names}, asked)
        _finish(_fork(lambda: _serve(chosen, reach, folder), quiet=False), math.inf)
        fates = pickle.loads((folder / "fates").read_bytes())  # noqa: S301  our own, of just now
        _print_table([_module(name, chosen[name], reach, fates[name]) for name in chosen])
    finally:
        shutil.rmtree(places["TMPDIR"], ignore_errors=True)


def _serve(chosen: dict[str, list[Mutant]], reach: Reach, folder: Path) -> int:
    """Try what can be changed in place; None stands for the fate of the rest."""
    import pytest

    for name in _modules():
        importlib.import_module(f"{_DOTTED}.{name}")
    known = _equivalents()

    def work(session: Session) -> None:
        CommandsHere(folder).install()
        fates = {
            name: [_fate(name, mutant, reach, known, session) for mutant in tried]
            for name, tried in chosen.items()
        }
        (folder / "fates").write_bytes(pickle.dumps(fates))

    return pytest.main([*_OPTIONS, *TESTS], plugins=[Serving(work)])


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("modules", nargs="*", help="names of modules; all if none is given")
    parser.add_argument("--sample", type=int, default=0, help="so many mutants a module, by lot")
    parser.add_argument("--lots", type=int, default=0, help="so many mutants in all, by lot")
    parser.add_argument("--seed", default="", help="draw other lots than the usual ones")
    parser.add_argument(
        "--longest", type=float, default=9.0, help="leave out tests that take more seconds"
    )
    parser.add_argument(
        "--again", type=Path, action="append", help="only the survivors printed into this file"
    )
    parser.add_argument("--reach", type=Path, help="keep what tests reach here, and read it again")
    parser.add_argument("--only", default="", help="only mutants of functions of this name")
    return parser.parse_args()


def _modules() -> list[str]:
    paths = (path.relative_to(WATER).with_suffix("") for path in WATER.rglob("*.py"))
    return sorted(".".join(path.parts) for path in paths if path.stem != "__init__")


def _file(name: str) -> Path:
    return WATER.joinpath(*name.split(".")).with_suffix(".py")


def _warm_up() -> None:
    """Import once what every process would import, but nothing of ours."""
    heavy = "_pytest.assertion.rewrite PySide6.QtWidgets PySide6.QtTest hypothesis"
    heavy += " hypothesis.strategies scipy.stats scipy.optimize lifelines pint phreeqpython"
    heavy += " pymannkendall holidays"
    for name in ("pytest", *heavy.split()):
        with contextlib.suppress(ImportError):
            importlib.import_module(name)
    from hypothesis import HealthCheck, Phase, settings

    settings.register_profile(
        "mutants",
        derandomize=True,
        database=None,
        deadline=None,
        max_examples=50,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    settings.load_profile("mutants")


def _kept(path: Path | None, measure: Callable[[], Reach]) -> Reach:
    """What an earlier run has measured and kept, or what is measured now."""
    if path and path.exists():
        return pickle.loads(path.read_bytes())  # noqa: S301  our own
    reach = measure()
    if path:
        path.write_bytes(pickle.dumps(reach))
    return reach


def _measured(folder: Path) -> Reach:
    """Run every test once without a change, watched."""

    def run() -> int:
        import pytest

        watching = Watching(folder)
        watching.test = ""
        watching.cover.start()
        watching.within(_IMPORTING)
        for name in _modules():
            importlib.import_module(f"{_DOTTED}.{name}")
        code = pytest.main([*_OPTIONS, *TESTS], plugins=[_hooks(watching)])
        watching.cover.stop()
        reach = watching.reach()
        (folder / "reach").write_bytes(pickle.dumps(reach))
        return code

    if _finish(_fork(run, quiet=False), _LONGEST_MEASURE) != 0:
        sys.exit("The tests must pass, and in time, before changes are tried.")
    return pickle.loads((folder / "reach").read_bytes())  # noqa: S301  our own, of just now


def _fork(run: Callable[[], int], *, quiet: bool = True) -> int:
    sys.stdout.flush()
    child = os.fork()
    if child:
        return child
    code = 1
    try:
        os.setpgid(0, 0)
        if quiet:
            faulthandler.disable()  # a change that ends the process is killed, no more to say
            resource.setrlimit(resource.RLIMIT_AS, (_LARGEST, _LARGEST))
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
        code = int(run())
    finally:
        sys.stdout.flush()
        os._exit(code)


def _finish(child: int, seconds: float) -> int | None:
    """The exit code of a process; None if it took too long and was ended."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.01)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


def _equivalents() -> Known:
    if not EQUIVALENT.exists():
        return {}
    with EQUIVALENT.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {(row["module"], row["place"], row["change"]): row["reason"] for row in rows}


def _chosen(name: str, asked: argparse.Namespace) -> list[Mutant]:
    source = _file(name).read_text(encoding="utf-8")
    every = [one for one in mutants(source, str(_file(name))) if asked.only in one.place]
    if asked.again:
        told = {found for path in asked.again for found in _SURVIVOR.findall(path.read_text())}
        every = [one for one in every if (name, one.place, one.change) in told]
    if not asked.sample or asked.sample >= len(every):
        return every
    lots = random.Random(name).sample(range(len(every)), asked.sample)
    return [every[number] for number in sorted(lots)]


def _by_lot(every: dict[str, list[Mutant]], asked: argparse.Namespace) -> dict[str, list[Mutant]]:
    """So many mutants of all modules together, always the same of a seed; all if none is asked."""
    if not asked.lots:
        return every
    pairs = [(name, mutant) for name, mutants_of in every.items() for mutant in mutants_of]
    draw = random.Random(f"{PACKAGE}{asked.seed}")
    lots = sorted(draw.sample(range(len(pairs)), min(asked.lots, len(pairs))))
    drawn: dict[str, list[Mutant]] = defaultdict(list)
    for name, mutant in (pairs[number] for number in lots):
        drawn[name].append(mutant)
    return dict(drawn)


def _fate(name: str, mutant: Mutant, reach: Reach, known: Known, session: Session) -> str | None:
    if (name, mutant.place, mutant.change) in known:
        return _EQUIVALENT
    order = reach.order(name, mutant)
    if not order:
        return _UNREACHED
    live = None if reach.is_early(name, mutant) else _live(name, mutant)
    if live is None:
        return None
    fate = _ended(lambda: _try_in_place(live, mutant, order, session), order, reach)
    if fate == _SURVIVED:
        _tell(name, mutant, fate)
    return fate


def _module(name: str, chosen: Sequence[Mutant], reach: Reach, fates: Sequence[str | None]) -> Row:
    counts: Counter[str] = Counter()
    for mutant, early_fate in zip(chosen, fates, strict=True):
        fate = early_fate
        if fate is None:
            order = reach.order(name, mutant)
            fate = _ended(lambda m=mutant, o=order: _try(name, m, o), order, reach)
            if fate == _SURVIVED:
                _tell(name, mutant, fate)
        elif fate == _UNREACHED:
            _tell(name, mutant, fate)
        counts[fate] += 1
    row = Row(name, len(chosen), counts)
    _say(str(row))
    return row


def _ended(run: Callable[[], int], order: Sequence[str], reach: Reach) -> str:
    seconds = 20 + 8 * sum(reach.seconds[test] for test in order)
    return _SURVIVED if _finish(_fork(run), seconds) == 0 else _KILLED


def _tell(name: str, mutant: Mutant, fate: str) -> None:
    line = _file(name).read_text(encoding="utf-8").splitlines()[mutant.line - 1]
    _say(f"{name}.py:{mutant.line} {mutant.place}: {mutant.change}   [{fate}]   {line.strip()}")


def _live(name: str, mutant: Mutant) -> FunctionType | None:
    """The function a mutant changes; None if it can't be changed once it is imported."""
    found: object = sys.modules[f"{_DOTTED}.{name}"]
    for word in mutant.place.split("."):
        found = inspect.getattr_static(found, word, None) if word else None
    found = getattr(found, "fget", None) or inspect.unwrap(getattr(found, "__func__", found))
    if not isinstance(found, FunctionType):
        return None
    changed = _code_of(mutant)
    return None if changed is None or changed == found.__code__ else found


def _code_of(mutant: Mutant) -> CodeType | None:
    code: CodeType | None = mutant.code
    for word in mutant.place.split("."):
        held = [one for one in code.co_consts if isinstance(one, CodeType)] if code else []
        code = next((one for one in held if one.co_name == word), None)
    return code


def _try_in_place(
    live: FunctionType, mutant: Mutant, order: Sequence[str], session: Session
) -> int:
    from _pytest.main import pytest_runtestloop

    live.__code__ = _code_of(mutant) or live.__code__
    _forget()
    items = {item.nodeid: item for item in session.items}
    session.items = [items[test] for test in order]
    with contextlib.suppress(session.Failed, session.Interrupted):
        pytest_runtestloop(session)
    return 1 if session.testsfailed else 0


def _forget() -> None:
    """Empty every cache of ours that could hold what the changed package has said."""
    below = ("wellbook.support.", "wellbook.water.", "wellbook.cli.common_options")
    below = () if PACKAGE.startswith("water") else below
    for name, module in list(sys.modules.items()):
        if name.startswith("wellbook.") and not name.startswith(below):
            for member in vars(module).values():
                getattr(member, "cache_clear", lambda: None)()


def _naming(name: str) -> set[str]:
    """Files of tests that name a module: they may read a table of it without running a line."""
    word = re.compile(rf"\b{name.rpartition('.')[2]}\b")
    named = map(Path, TESTS)
    paths = (path for one in named for path in ([one] if one.is_file() else one.rglob("test_*.py")))
    return {str(path) for path in paths if word.search(path.read_text(encoding="utf-8"))}


def _try(name: str, mutant: Mutant, order: Sequence[str]) -> int:
    import pytest

    sys.meta_path.insert(0, Replaced(f"{_DOTTED}.{name}", mutant))
    files = sorted({test.split("::")[0] for test in order})
    return pytest.main([*_OPTIONS, *files], plugins=[Chosen(order)])


def _importers(name: str) -> list[str]:
    """A module and those that import it."""
    words = (f"{_DOTTED}.{name} ", f"import {name.rpartition('.')[2]}\n")
    sources = {module: _file(module).read_text() for module in _modules()}
    return [name, *(m for m, text in sources.items() if any(word in text for word in words))]


def _print_table(rows: Sequence[Row]) -> None:
    _say("\n| module | mutants | killed | equivalent | survived |")
    _say("| --- | ---: | ---: | ---: | ---: |")
    total: Counter[str] = sum((row.counts for row in rows), Counter())
    for row in (*rows, Row("together", sum(row.tried for row in rows), total)):
        _say(str(row))
    if counted := total.total() - total[_EQUIVALENT]:
        _say(f"\n{total[_KILLED] / counted:.1%} of those that matter are killed.")


def _say(line: str) -> None:
    print(line, flush=True)  # noqa: T201  this is what it is for


if __name__ == "__main__":
    main()
