"""Make a program that a household can install: one folder with everything in it, packed.

    pip install pyinstaller
    python resources/bundle/make.py OUT

Run it on the kind of system that the bundle is for, in an environment where Wellbook is
installed with its dependencies. On Linux the archive also holds a desktop entry, the kind of file
`.wellbook` and a script that puts them where the desktop looks. The recipes for Windows (a
folder) and macOS (an application) are in `wellbook.spec`; they were not tried.
"""  # noqa: INP001  a script

import shutil
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
LINUX = ("install.sh", "wellbook.desktop", "wellbook.xml")


def make(out: Path) -> Path:
    """Make the bundle in `out`; returns the archive, on Linux, else the folder."""
    out = out.resolve()
    out.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as work:
        words = ["--noconfirm", "--log-level", "WARN", "--workpath", work, "--distpath", str(out)]
        subprocess.run(  # noqa: S603  our own words
            [sys.executable, "-m", "PyInstaller", *words, str(HERE / "wellbook.spec")],
            check=True,
            cwd=work,  # so that the installed Wellbook is found, not the checkout
        )
    folder = out / "wellbook"
    leave_out_symbols(folder)
    tell_sizes(folder)
    if not sys.platform.startswith("linux"):
        return folder
    for name in LINUX:
        shutil.copy(HERE / name, folder)
    shutil.copy(ROOT / "resources/icons/wellbook.svg", folder)
    archive = out / "wellbook-linux.tar.gz"
    with tarfile.open(archive, "w:gz") as file:
        file.add(folder, "wellbook")
    sys.stdout.write(f"{archive}: {archive.stat().st_size / 1e6:.0f} MB\n")
    return archive


def leave_out_symbols(folder: Path) -> None:
    """Take what only debuggers read out of Python's own libraries; others can break by it."""
    strip = shutil.which("strip")
    if not strip or not sys.platform.startswith("linux"):
        return
    inside = folder / "_internal"
    own = [*inside.glob("libpython*.so*"), *inside.glob("python3*/lib-dynload/*.so")]
    subprocess.run([strip, "--strip-unneeded", *own], check=True)  # noqa: S603  our own words


def tell_sizes(folder: Path) -> None:
    """Print what takes the space, largest first."""
    sizes: dict[str, int] = {}
    for path in folder.rglob("*"):
        if path.is_file() and not path.is_symlink():
            parts = path.relative_to(folder).parts
            part = parts[1] if len(parts) > 2 else "single files"  # noqa: PLR2004  _internal/part/…
            sizes[part] = sizes.get(part, 0) + path.stat().st_size
    for part, size in sorted(sizes.items(), key=lambda item: -item[1])[:12]:
        sys.stdout.write(f"{size / 1e6:8.1f} MB  {part}\n")
    sys.stdout.write(f"{sum(sizes.values()) / 1e6:8.1f} MB  in all\n")


if __name__ == "__main__":
    make(Path(sys.argv[1]))
