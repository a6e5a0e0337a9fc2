"""Help is there at once: what only some commands need is loaded by them."""

import subprocess
import sys

SAID = "import sys; from wellbook.cli.main import main; sys.argv = ['wellbook', '--help']; main()"
NEEDED_LATER = {"hashlib", "json", "sqlite3", "tempfile", "tomllib", "csv", "decimal", "subprocess"}


def test_help_loads_nothing_that_only_some_commands_need():
    told = f"import atexit, sys; atexit.register(lambda: print(*sys.modules)); {SAID}"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.splitlines()[-1].split())
    assert "click" in loaded
    assert loaded & NEEDED_LATER == set()
    heavy = ("numpy", "matplotlib", "pint", "reportlab", "pypdf", "sqlite_utils", "PySide6")
    assert loaded.isdisjoint(heavy)
    assert not [name for name in loaded if name.startswith(("wellbook.water", "wellbook.book"))]
