"""Print the lowest version that pyproject.toml allows of what is needed to run, a line each."""

import sys
import tomllib
from pathlib import Path

from packaging.requirements import Requirement

text = (Path(__file__).parent.parent / "pyproject.toml").read_text(encoding="utf-8")
for line in tomllib.loads(text)["project"]["dependencies"]:
    asked = Requirement(line)
    if asked.marker and not asked.marker.evaluate():
        continue
    lowest = [one.version for one in asked.specifier if one.operator == ">="]
    if not lowest:
        sys.exit(f"{asked.name} has no lower bound")
    print(f"{asked.name}=={lowest[0]}")  # noqa: T201  printing is its job
