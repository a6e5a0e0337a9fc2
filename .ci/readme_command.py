"""Print the POSIX command that the README shows under a mark: `<!-- run -->` or `<!-- test -->`."""

import re
import sys
from pathlib import Path

text = (Path(__file__).parent.parent / "README.md").read_text(encoding="utf-8")
found = re.search(rf"<!-- {sys.argv[1]} -->\s*```sh\n(.*?)```", text, re.DOTALL)
if found is None:
    sys.exit(f"README.md shows no command marked {sys.argv[1]}")
print(found[1].strip())  # noqa: T201  printing is its job
