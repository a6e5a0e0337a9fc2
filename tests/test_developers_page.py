"""DEVELOPERS.md tells of what is there: every path, module and name that it mentions exists."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
PROSE = re.sub(r"```.*?```", "", TEXT, flags=re.DOTALL)
PATHS = sorted(
    {
        said
        for said in re.findall(r"`(\w[\w./-]+)`", PROSE)
        if "/" in said or said.endswith((".py", ".csv", ".toml", ".po", ".md"))
    }
)
WORDS = sorted(set(re.findall(r"`([a-z]+_\w+|[A-Z]+_\w+|[A-Z][a-z]+[A-Z]\w*)`", PROSE)))
HOUSE = TEXT.split("## The house")[1].split("```")[1]
ROOMS = re.findall(r"^  (\w+)/ ", HOUSE, flags=re.MULTILINE)


def places(said):
    """Where a path may lie: from the top, in the package, or a file known by its name."""
    yield from (ROOT / said, ROOT / "wellbook" / said, ROOT / "resources" / said)
    if "/" not in said:
        yield from ROOT.glob(f"wellbook/**/{said}")
        yield from ROOT.glob(f"resources/**/{said}")


def names_of(module):
    """What a module defines at its top, and the attributes of its classes."""
    tree = ast.parse(module.read_text(encoding="utf-8"))
    found = set()
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            found.add(node.name)
        elif isinstance(node, ast.Assign):
            found |= {target.id for target in node.targets if isinstance(target, ast.Name)}
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            found.add(node.target.id)
    return found


def exists(said):
    if any(place.exists() for place in places(said)):
        return True
    stem, dot, name = said.rpartition(".")
    modules = [place for place in places(f"{stem}.py") if place.is_file()] if dot else []
    if any(name in names_of(module) for module in modules):
        return True
    stem, dot, first = stem.rpartition(".")  # a method of a class of a module
    modules = [place for place in places(f"{stem}.py") if place.is_file()] if dot else []
    return any(first in names_of(module) for module in modules)


@pytest.mark.parametrize("said", PATHS)
def test_what_the_page_names_is_there(said):
    assert exists(said), f"DEVELOPERS.md names {said}, which is not there"


def test_the_house_plan_names_every_room_and_no_other():
    package = ROOT / "wellbook"
    rooms = sorted(folder.parent.name for folder in package.glob("*/__init__.py"))
    assert sorted(ROOMS) == rooms


@pytest.mark.parametrize("word", WORDS)
def test_an_identifier_that_the_page_names_is_in_the_code(word):
    sources = [*ROOT.glob("wellbook/**/*.py"), ROOT / "pyproject.toml"]
    assert any(re.search(rf"\b{word}\b", source.read_text("utf-8")) for source in sources), word
