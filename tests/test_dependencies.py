"""Each library that is needed to run has a reason, and a licence that lets it be handed on."""

import re
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT / "tests" / "bench"))
import dependencies  # noqa: E402  it lies among the measures

PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
# SPDX names of licences that ask only to be named, and PySide6's, which is fulfilled by linking
# to a library that can be exchanged (https://spdx.org/licenses/).
FREE = {"MIT", "MIT-CMU", "BSD", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "Apache-2.0", "PSF"}
FREE |= {"PSF-2.0", "Zlib", "CC0-1.0", "Public Domain", "LGPL-3.0-only", "dependency licenses"}


@pytest.fixture(scope="module")
def libraries():
    return dependencies.libraries()


def test_each_library_that_is_asked_for_has_a_reason_and_no_other():
    assert set(dependencies.required()) == set(dependencies.reasons())


@pytest.mark.parametrize("name", dependencies.required())
def test_the_page_for_developers_names_each_library_with_its_licence(name, libraries):
    row = dependencies.reasons()[name]
    line = re.search(rf"^\| {row['library']} \| (.*?) \|", PAGE, flags=re.MULTILINE)
    assert line is not None
    assert line[1] == libraries[name].licence


def test_every_library_that_comes_along_may_be_handed_on(libraries):
    assert len(libraries) > 30
    for library in libraries.values():
        ways = library.licence.split(" OR ")
        ways = [set(re.split(r" AND |, ", way)) for way in ways]
        assert any(way <= FREE for way in ways), (library.name, library.licence)
