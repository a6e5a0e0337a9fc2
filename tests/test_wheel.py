"""The built wheel, installed elsewhere, does the main job from another folder."""

import email
import json
import os
import site
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def python(wheel, tmp_path_factory):
    """A Python of its own with the wheel; the libraries it needs come from here."""
    folder = tmp_path_factory.mktemp("elsewhere") / "venv"
    venv.create(folder, with_pip=False)
    scripts = "Scripts" if os.name == "nt" else "bin"
    found = folder / scripts / ("python.exe" if os.name == "nt" else "python")
    target = subprocess.run(
        [found, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"],
        check=True,
        capture_output=True,
        text=True,
    ).stdout.strip()
    pip = [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--no-index"]
    subprocess.run([*pip, "--target", target, str(wheel)], check=True)
    # A path file's lines are not searched for path files, so our own checkout stays out of it.
    (Path(target) / "libraries.pth").write_text("\n".join(site.getsitepackages()) + "\n")
    return found


def run(python, *words, cwd, code=0):
    done = subprocess.run(
        [python, "-I", "-m", "wellbook", *map(str, words)],
        cwd=cwd,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == code, done.stderr
    return done.stdout


def test_the_wheel_carries_its_reference_data_and_households(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    for wanted in (
        "wellbook/py.typed",
        "wellbook/_resources/limits.csv",
        "wellbook/_resources/parameters.csv",
        "wellbook/_sample_wells/alder-hollow.wellbook",
        "wellbook/_sample_wells/alder-hollow/household.toml",
    ):
        assert wanted in names
    assert not [name for name in names if name.startswith(("tests/", "wellbook/tests"))]


def test_the_wheel_carries_the_licences_where_installers_look_for_them(wheel):
    """The core metadata name them, and they lie in the folder `licenses` (PEP 639)."""
    with zipfile.ZipFile(wheel) as packed:
        (metadata,) = [name for name in packed.namelist() if name.endswith("dist-info/METADATA")]
        about = email.message_from_bytes(packed.read(metadata))
        assert about["License-Expression"] == "MIT"
        named = about.get_all("License-File")
        folder = metadata.removesuffix("METADATA") + "licenses/"
        texts = {name: packed.read(folder + name).decode() for name in named}
    assert sorted(texts) == ["resources/fonts/LICENSE.txt", "resources/licences/MIT.txt"]
    ours = texts["resources/licences/MIT.txt"]
    assert ours.startswith("MIT License\n\nCopyright (c) 2026 The Wellbook developers\n")
    assert "Permission is hereby granted, free of charge" in ours
    assert "resources/licences/MIT.txt" in (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_installed_wheel_does_the_main_job_from_another_folder(python, tmp_path):
    where = subprocess.run(
        [python, "-I", "-c", "import wellbook; print(wellbook.__file__)"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert str(ROOT) not in where
    run(python, "sample", "salt-lane", "home.wellbook", cwd=tmp_path)
    status = json.loads(run(python, "status", "home.wellbook", "--json", cwd=tmp_path))
    assert status["wells"][0]["name"] == "Salt Lane"
    run(python, "due", "home.wellbook", "--json", "--on", "2026-11-25", cwd=tmp_path, code=3)
    run(python, "packet", "home.wellbook", "--for", "buyer", "-o", "h.pdf", cwd=tmp_path)
    assert (tmp_path / "h.pdf").read_bytes().startswith(b"%PDF")
