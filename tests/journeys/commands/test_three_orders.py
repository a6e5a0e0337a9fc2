"""Three price lists and what is then to be ordered, to read; the sums are worked out at the top.

After a meant change `WELLBOOK_TELL=1` writes the answers anew, to be read before they are kept.
"""

import os
import re
import shlex
from pathlib import Path

import pytest

STORIES = sorted((Path(__file__).parent / "orders").glob("*.txt"))


@pytest.mark.parametrize("story", STORIES, ids=lambda path: path.stem)
def test_the_cheapest_order_is_the_one_worked_out_by_hand(shell, story):
    text = story.read_text(encoding="utf-8")
    told = "\n".join(tell(shell, text)) + "\n"
    if os.environ.get("WELLBOOK_TELL"):
        story.write_text(told, encoding="utf-8")
    assert told == text
    (worked_out,) = re.findall(r"= (\d+\.\d\d)\.(?: At|\n\n)", text)
    assert f"Sum: {worked_out} USD." in told


def tell(shell, text):
    """The story with the orders of today."""
    lab, rows = "", []
    for line in text.splitlines():
        if line.startswith("    "):
            continue  # an earlier answer
        yield line
        word, _, rest = line.partition(" ")
        if rows and word != "|":
            (shell.folder / "list.csv").write_text("\n".join(rows), encoding="utf-8")
            shell.done("enter", "home.wellbook", "prices", "list.csv", "--lab", lab)
            rows = []
        if word == "$":
            shell.done(*shlex.split(rest))
        elif word == "list":
            lab = rest
        elif word == "|":
            rows.append(rest)
        elif word == "order":
            said = shell.done("order", "home.wellbook", "--on", rest, "-o", "form.pdf").out
            yield from (f"    {one}".rstrip() or "    " for one in said.splitlines() if one)
