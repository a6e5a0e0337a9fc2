"""The web page as a browser takes it and prints it: on demand, where Chromium is installed.

`WELLBOOK_BROWSER=1 pytest tests/packet/test_web_page_in_a_browser.py`. Contrast: WCAG 2.2, 1.4.3;
order of headings: its technique G141.
"""

import itertools
import os
import re
import shutil
import subprocess

import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader

from wellbook.book import Book
from wellbook.packet.options import PacketOptions
from wellbook.packet.web_page import write_page
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

BROWSER = shutil.which("chromium")
pytestmark = [
    pytest.mark.skipif(not os.environ.get("WELLBOOK_BROWSER"), reason="on demand"),
    pytest.mark.skipif(BROWSER is None, reason="Chromium is not installed"),
    pytest.mark.timeout(240),
]
# What the browser works out of the styles of every element that holds words of its own.
LOOK = """
<script>
addEventListener("load", () => {
  const told = [];
  for (const one of document.querySelectorAll("body *")) {
    if (one.closest("svg") || one.tagName === "SCRIPT") continue;
    if (![...one.childNodes].some(c => c.nodeType === 3 && c.data.trim())) continue;
    told.push(one.tagName + " " + getComputedStyle(one).color);
  }
  const made = document.createElement("pre");
  made.id = "told";
  made.textContent = told.join("|");
  document.body.append(made);
});
</script>
"""


def browse(folder, *words):
    return subprocess.run(
        [BROWSER, "--headless", "--no-sandbox", "--disable-gpu",
         f"--user-data-dir={folder / 'browser'}", *words],
        capture_output=True, text=True, check=True, timeout=200,
    ).stdout  # fmt: skip


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    folder = tmp_path_factory.mktemp("web")
    path = folder / "page.html"
    with Book.open(paths.sample_wells() / "alder-hollow.wellbook", readonly=True) as book:
        write_page(
            book.record(), read_catalogue(paths.resources()), path, PacketOptions("buyer"),
            today=TODAY,
        )  # fmt: skip
    return path


def test_the_browser_sees_headings_in_order_and_words_that_stand_out(written):
    text = written.read_text("utf-8")
    looked = written.with_name("looked.html")
    # The page itself lets nothing run: only for this look its policy is taken off.
    looked.write_text(
        re.sub(r"<meta http-equiv[^>]*>", "", text).replace("</body>", LOOK + "</body>"), "utf-8"
    )
    seen = browse(written.parent, "--dump-dom", looked.as_uri())
    told = re.search(r'<pre id="told">([^<]*)</pre>', seen)[1].split("|")
    levels = [int(one[1]) for one in told if re.match(r"H[1-6] ", one)]
    assert levels[0] == 1
    assert all(later - one <= 1 for one, later in itertools.pairwise(levels))
    colours = {one.split(" ", 1)[1] for one in told}
    assert len(colours) >= 3
    for colour in colours:
        parts = [int(one) / 255 for one in re.findall(r"\d+", colour)[:3]]
        light = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        bright = sum(s * c for s, c in zip((0.2126, 0.7152, 0.0722), light, strict=True))
        assert 1.05 / (bright + 0.05) >= 4.5, colour


def test_nothing_runs_and_nothing_is_fetched_even_where_a_script_is_put_in(written):
    text = written.read_text("utf-8").replace("</body>", LOOK + "</body>")
    put_in = written.with_name("put_in.html")
    put_in.write_text(text, "utf-8")
    assert 'id="told"' not in browse(written.parent, "--dump-dom", put_in.as_uri())


def test_it_prints_whole_with_two_charts_on_a_page(written):
    path = written.with_suffix(".pdf")
    browse(written.parent, "--no-pdf-header-footer", f"--print-to-pdf={path}", written.as_uri())
    pages = [page.extract_text() for page in PdfReader(path).pages]
    said = re.sub(r"\s+", " ", " ".join(pages))
    for words in ("Where it stands", "All tests in order", "Limits used, with their sources",
                  "Anybody can change a page like this one"):  # fmt: skip
        assert words in said
    charts = re.findall(r"<h3>([^<]*)</h3><figure>", written.read_text("utf-8"))
    on_pages = [sum(title in page for title in charts) for page in pages]
    assert max(on_pages) >= 2
