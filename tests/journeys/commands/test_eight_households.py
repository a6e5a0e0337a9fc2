"""Eight households led through a year by commands alone: what is said and due on twelve days each.

Each story in `households/` says what the household did; below each `look` stands what `due`,
`cases` and `status` then said. What agencies advise stands at its top. After a meant change
`WELLBOOK_TELL=1` writes the answers anew, to be read before they are kept. The commands run in
one process, as there are hundreds of them.
"""

import json
import os
import re
import shlex
from itertools import count
from pathlib import Path

import pytest
from click.testing import CliRunner

from wellbook.cli.main import cli

STORIES = sorted((Path(__file__).parent / "households").glob("*.txt"))
DEED = re.compile(r"(\d{4}-\d\d-\d\d) (?:(look)|\$ (.+)|lab (\w+) at ([^:]+): (.+))")
REPORT = (
    "Sample ID,{number}\nCollected,{day} 08:10\nReceived,{day} 11:00\nSample Location,{point}\n\n"
)

OF_HEALTH = {"health", "action level", "advisory"}


class Shell:
    """Commands typed in a folder."""

    def __init__(self, folder):
        self.folder = folder

    def run(self, *words):
        answer = CliRunner().invoke(cli, words, catch_exceptions=False)
        assert answer.exit_code in {0, 3}, (words, answer.output)
        return answer.output


@pytest.fixture
def shell(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return Shell(tmp_path)


@pytest.mark.parametrize("story", STORIES, ids=lambda path: path.stem)
def test_nothing_is_forgotten(shell, story):
    told = "\n".join(tell(shell, story.read_text(encoding="utf-8"))) + "\n"
    if os.environ.get("WELLBOOK_TELL"):
        story.write_text(told, encoding="utf-8")
    assert told == story.read_text(encoding="utf-8")


def tell(shell, text):
    """The story with the answers of today; at every third look the next rounds are planned, too."""
    looks = count()
    for line in text.splitlines():
        if line.startswith("    "):
            continue  # an earlier answer
        yield line
        if deed := DEED.fullmatch(line):
            day, look, command, number, point, results = deed.groups()
            if look:
                due = asked(shell, "due", day)["due"]
                yield from answers(shell, day, due)
                if next(looks) % 3 == 0:
                    require_one_day(due, asked(shell, "round", day))
            elif command:
                shell.run(*shlex.split(command))
            else:
                bring(shell, day, number, point, results)


def bring(shell, day, number, point, results):
    """A lab's report of one sample, taken in."""
    rows = [result_row(result) for result in results.split("; ")]
    head = REPORT.format(number=number, day=day, point=point)
    (shell.folder / f"{number}.csv").write_text(
        head + "Analyte,Result,Units\n" + "\n".join(rows) + "\n", encoding="utf-8"
    )
    said = shell.run("add", "home.wellbook", f"{number}.csv", "--accept", "--json")
    (file,) = json.loads(said)["files"]
    assert file["taken"] == len(rows), file


def result_row(text):
    name, result, unit = re.fullmatch(
        r"(.+?) ((?:[<>]?\d[\d.]*)|Absent|Present)(?: (.+))?", text
    ).groups()
    return f"{name},{result},{unit or ''}"


def require_one_day(due, rounds):
    """What is due is drawn on the day that it names."""
    drawn = {
        (one["point"], panel["panel"]): (one["draw"] or "")[:10] or None
        for one in rounds["rounds"]
        for panel in one["panels"]
    }
    for item in due:
        place = (item["point"], item.get("panel"))
        if place in drawn:
            assert item["suggested"]["day"] == drawn[place], item


def asked(shell, command, day):
    return json.loads(shell.run(command, "home.wellbook", "--on", day, "--json"))


def answers(shell, day, due):
    """What a household reads on a day, in short lines."""
    cases = asked(shell, "cases", day)["cases"]
    status = asked(shell, "status", day)
    for item in due:
        what = item["panel"] if "panel" in item else f"upkeep: {item['upkeep']}"
        case = " (case)" if item["case"] else ""
        yield f"    due {item['due']} {item['point']}: {what}{case}: {' '.join(item['parameters'])}"
    for case in cases:
        what = " ".join(case["parameters"])
        if case["state"] == "closed":
            yield f"    closed {case['closed']} {case['point']}: {what}"
            continue
        steps = "; ".join(f"{step['what']} by {step['by']}" for step in case["next"])
        yield f"    open since {case['opened']} {case['point']}: {what}: {steps}"
    for well in status["wells"]:
        for point in well["points"]:
            for parameter in point["parameters"]:
                now = parameter["now"]["verdict"]
                if now in {"outside", "adopted"} and parameter["now"]["kind"] in OF_HEALTH:
                    opened = {
                        key for one in cases if one["state"] == "open" for key in one["parameters"]
                    }
                    assert parameter["key"] in opened, (day, point["name"], parameter)
                if now in {"outside", "undecidable", "adopted"}:
                    reading = parameter["latest"]
                    yield (
                        f"    {now} {point['name']}: {parameter['name']} {reading['reported']}"
                        f" {reading['unit']} of {reading['collected'][:10]}"
                    )
            for caution in point["cautions"]:
                yield f"    caution {point['name']}: {caution['text']}"
