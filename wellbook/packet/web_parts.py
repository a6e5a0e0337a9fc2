"""Pieces of a web page, as elements of a tree, so that no text can become markup."""

from collections.abc import Iterable, Sequence
from xml.etree.ElementTree import Element

Part = Element | str

# Colours on white after WCAG 2.2, 1.4.3: ink 16 : 1, grey 7 : 1, links 7.7 : 1.
STYLE = """
:root { color: #201f1c; background: #ffffff; }
body { max-width: 60rem; margin: 0 auto; padding: 1rem; font: 100%/1.5 sans-serif; }
h1, h2 { color: #1f5c55; line-height: 1.2; }
a { color: #1f5c55; }
footer, figcaption, caption { color: #5b574f; font-size: 0.9rem; text-align: left; }
section { margin-top: 2rem; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; margin: 1rem 0; font-size: 0.9rem; }
th, td { border-bottom: 1px solid #c4beb2; padding: 0.3rem 0.6rem 0.3rem 0; text-align: left;
  vertical-align: top; }
figure { margin: 0.5rem 0 1.5rem; }
figure svg { width: 100%; height: auto; }
@media print {
  :root { font-size: 9pt; }
  body { max-width: none; padding: 0; line-height: 1.35; }
  section { margin-top: 1.2rem; }
  figure svg { width: 15cm; }
  figcaption p, li { margin: 0.2rem 0; }
  td, th { padding-top: 0.15rem; padding-bottom: 0.15rem; }
  nav { display: none; }
  h2, h3 { break-after: avoid; }
  figure, tr { break-inside: avoid; }
  .wide { overflow: visible; }
}
"""


def tag(name: str, /, *parts: Part, **facts: str) -> Element:
    """An element with its text and children in order."""
    made = Element(name, facts)
    last: Element | None = None
    for one in parts:
        if isinstance(one, Element):
            made.append(one)
            last = one
        elif last is None:
            made.text = (made.text or "") + one
        else:
            last.tail = (last.tail or "") + one
    return made


def section(key: str, title: str, *parts: Part) -> Element:
    """A section under a heading of the second level, which names it to a screen reader."""
    heading = tag("h2", title, id=f"{key}-title")
    return tag("section", heading, *parts, id=key, **{"aria-labelledby": f"{key}-title"})


def listed(parts: Iterable[Part]) -> Element:
    """A list."""
    return tag("ul", *(tag("li", one) for one in parts))


def table(caption: str, heads: Sequence[str], rows: Iterable[Sequence[Part]]) -> Element:
    """A table whose columns and rows have heads; a wide one can be moved sideways by keys."""
    first = tag("tr", *(tag("th", head, scope="col") for head in heads))
    body = [
        tag("tr", tag("th", row[0], scope="row"), *(tag("td", cell) for cell in row[1:]))
        for row in rows
    ]
    made = tag("table", tag("caption", caption), tag("thead", first), tag("tbody", *body))
    facts = {"class": "wide", "tabindex": "0", "role": "region", "aria-label": caption}
    return tag("div", made, **facts)
