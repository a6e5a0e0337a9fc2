"""Starts the program as a person starts it, in a process and a home of its own."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import commands
import pytest

from wellbook.support import paths

HERE = Path(__file__).parent
SHARED = (str(HERE.parents[1]), os.environ.get("PYTHONPATH", ""))  # what tests share
SMALL, USUAL = (911, 512), (1280, 720)


def screen_of(size, folder):
    """A screen of this size for Qt's platform without a display."""
    kept = folder / "screens.json"
    dots = {"logicalDpi": 96, "logicalBaseDpi": 96, "dpr": 1}
    at = {"name": "screen", "x": 0, "y": 0, "width": size[0], "height": size[1], **dots}
    kept.write_text(json.dumps({"screens": [at]}))
    return f"offscreen:configfile={kept}"


@pytest.fixture
def books(tmp_path):
    """Copies of invented households by name."""

    def copies(*names):
        made = [tmp_path / f"{name}.wellbook" for name in names]
        for name, path in zip(names, made, strict=True):
            shutil.copyfile(paths.sample_wells() / path.name, path)
            for file in (paths.sample_wells() / name / "to-add").iterdir():
                shutil.copyfile(file, tmp_path / f"{name}-{file.name}")
        return made

    return copies


def started(words, said, env):
    """The runner of journeys, in a process of its own."""
    if commands.WHOLE:
        runner = [sys.executable, HERE / "runner.py", *words]
        return subprocess.Popen(runner, env=env, stdout=said, stderr=said)
    return commands.server("journeys").start(words, said, said, Path.cwd(), env, ())


@pytest.fixture
def use(tmp_path):
    """Let a journey use the program; returns its report."""

    def go(journey, *books, size=USUAL, platform="", seconds=600, **environ):
        home = tmp_path / "home"
        home.mkdir(exist_ok=True)
        report = tmp_path / "report.json"
        env = {
            **os.environ,
            "HOME": str(home),
            "XDG_CONFIG_HOME": str(home / "config"),
            "XDG_DATA_HOME": str(home / "data"),
            "XDG_CACHE_HOME": str(home / "cache"),
            "QT_QPA_PLATFORM": platform or screen_of(size, tmp_path),
            "PYTHONPATH": os.pathsep.join(filter(None, SHARED)),
            **environ,
        }
        with (tmp_path / "said.txt").open("w") as said:
            words = [journey, str(report), str(tmp_path), *map(str, books)]
            process = started(words, said, env)
            try:
                code = process.wait(seconds)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()
                raise
        told = (tmp_path / "said.txt").read_text()
        assert report.exists(), f"ended with {code}\n{told}"
        found = json.loads(report.read_text())
        sys.stdout.write(f"{journey}: {len(found['tried'])} tried\n")
        return found

    return go
