"""What every page-setting function is given: the facts, the paper, and what is collected."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import CondPageBreak, Paragraph, Table

from wellbook.charts.model.piper import Piper
from wellbook.charts.model.stiff import Stiff
from wellbook.charts.model.year_wheel import Wheel
from wellbook.packet.attachments import Attachment
from wellbook.packet.charts import Figure
from wellbook.packet.gather import History
from wellbook.pdf import style
from wellbook.pdf.flowables import Heading, Marked, Places, Reference
from wellbook.pdf.letters import markup
from wellbook.sandbox.originals import Original
from wellbook.sharing.attachable import ScreenedOriginal
from wellbook.water.cautions.cautions import Cautions
from wellbook.water.sampling.sale_rules import SaleRule
from wellbook.water.values.limits import Limit
from wellbook.water.verdicts.judge import Judgement
from wellbook.wording import verdicts

Story = list[Any]

_ROOM = 130.0  # points that a heading and the first rows under it need
_LINK = style.ACCENT.hexval().replace("0x", "#")


@dataclass(slots=True)
class PacketContext:
    """The facts of a packet and what its pages collect while they are made.

    Attributes:
        width: Width of the text in points.
        technical: Whether the reader is a consultant.
        limits: Every limit named so far, in order; its place is its number in the packet.
        figures: The charts, in the order of the spaces left for them.
        wheels: The year wheels; their spaces are numbered on from those of the charts.
        ions: Diagrams of the main ions, numbered on from the wheels; only for a consultant.
        cautions: The reference data on cautions.
        attachments: Files that go with the PDF.
        with_originals: Whether the book's documents were asked for.
        originals: These documents, also those that stay behind.
        appended: Documents whose pages come at the end, each with the name it has there.
        closing: The day of the sale that was named, or None.
        sale_rules: What lenders and states usually ask of a test.
        labs_here: What vouches for a lab at the place of the well; empty if that isn't known.
        units: Name of the units that were chosen; empty for the usual ones.
        closeness: How large the words of page one are, 1 where nothing asks for smaller ones.
        scale: How tall drawings among the answers are, 1 where nothing asks for another size.
    """

    history: History
    width: float
    technical: bool
    figures: tuple[Figure, ...]
    wheels: tuple[Wheel, ...]
    ions: tuple[Piper | Stiff, ...]
    cautions: Cautions
    attachments: tuple[Attachment, ...]
    with_originals: bool
    originals: tuple[ScreenedOriginal, ...]
    appended: tuple[tuple[str, Original], ...]
    closing: date | None
    sale_rules: tuple[SaleRule, ...]
    labs_here: str = ""
    units: str = ""
    closeness: float = 1.0
    scale: float = 1.0
    places: Places = field(default_factory=Places)
    limits: dict[Limit, int] = field(default_factory=dict)

    def heading(self, text: str, key: str) -> Heading:
        """The heading of a section: a bookmark of the first level."""
        return Heading(text, style.H1, self.places, key, 0)

    def second(self, text: str, key: str) -> Heading:
        """A heading inside a section: a bookmark of the second level."""
        return Heading(text, style.H2, self.places, key, 1)

    def over(self, text: str, key: str, table: Table) -> Story:
        """A heading over a table that may go on on the next page."""
        return [CondPageBreak(_ROOM), Heading(text, style.LOOSE, self.places, key, 1), table]

    def chart_key(self, point: int, parameter: str) -> str:
        """The link's end at the chart that shows a parameter at a point; empty without one."""
        place = (point, parameter)
        return next((figure.key for figure in self.figures if place in figure.shows), "")

    def number(self, limit: Limit) -> int:
        """The number of a limit in the list of limits; it is put there if it is new."""
        return self.limits.setdefault(limit, len(self.limits) + 1)

    def linked(self, said: str, face: ParagraphStyle = style.BODY) -> Paragraph:
        """A paragraph in which `[3]` is a link to the third limit of the list."""
        known = set(map(str, self.limits.values()))
        parts = re.split(r"\[(\d+)\]", markup(said))
        with_links = "".join(
            f'<a href="#limit-{part}" color="{_LINK}">[{part}]</a>'
            if odd and part in known
            else (f"[{part}]" if odd else part)
            for odd, part in ((place % 2, part) for place, part in enumerate(parts))
        )
        return Paragraph(with_links, face)

    def references(self, *judgements: Judgement) -> Reference | str:
        """Links to the limits that verdicts rest on, each once."""
        found = dict.fromkeys(one.limit for one in judgements if one.limit is not None)
        numbers = [self.number(limit) for limit in found]
        if not numbers:
            return "–"
        return Reference(tuple(f"limit-{n}" for n in numbers), tuple(f"[{n}]" for n in numbers))


def marked(judgement: Judgement) -> Marked:
    """A verdict as a cell of a table."""
    shape, colour = style.SHAPES[judgement.verdict]
    return Marked(shape, colour, verdicts.word(judgement))


def text(said: str, face: ParagraphStyle = style.BODY) -> Paragraph:
    """A paragraph of plain text."""
    return Paragraph(markup(said), face)


def texts(said: Sequence[str], face: ParagraphStyle = style.BODY) -> Story:
    """Paragraphs of plain text."""
    return [text(one, face) for one in said if one]
