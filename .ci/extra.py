"""Print what an extra of pyproject.toml asks for, a requirement a line."""

import sys
import tomllib
from pathlib import Path

text = (Path(__file__).parent.parent / "pyproject.toml").read_text(encoding="utf-8")
extras = tomllib.loads(text)["project"]["optional-dependencies"]
print(*extras[sys.argv[1]], sep="\n")  # noqa: T201  printing is its job
