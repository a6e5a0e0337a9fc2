"""A letter set on one page and written as a PDF."""

import tempfile
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from reportlab.platypus import HRFlowable, Paragraph, Spacer, Table, TableStyle

from wellbook import __version__
from wellbook.book.record import Record
from wellbook.packet.gather import History
from wellbook.packet.letters.letter import Letter, letter, verdict_words
from wellbook.packet.letters.sentences import RECIPIENTS
from wellbook.packet.options import PacketOptions
from wellbook.packet.packet import language, tell
from wellbook.packet.pages.about import YARDSTICKS
from wellbook.pdf import style
from wellbook.pdf.document import Running, Sheet
from wellbook.pdf.flowables import Marked, Places
from wellbook.pdf.grid import Column, grid, pairs
from wellbook.pdf.letters import markup
from wellbook.pdf.one_page import filled_page
from wellbook.planning.advice import people
from wellbook.support import paths, translation
from wellbook.support.translation import N_, _
from wellbook.support.whole_file import require_place, write_whole
from wellbook.water.cautions.cautions import read_cautions
from wellbook.water.values.catalogue import Catalogue
from wellbook.wording import paper
from wellbook.wording.reference import worded_cautions

_RESULTS = (
    Column("", 14),
    Column(N_("Parameter"), 80),
    Column(N_("Where"), 106),
    Column(N_("Latest result"), 112),
    Column(N_("By today’s limits"), 84),
    Column(N_("Limit"), 92),
    Column(N_("Drawn"), 62),
)
_TIGHT = TableStyle(
    [("TOPPADDING", (0, 1), (-1, -1), 1.4), ("BOTTOMPADDING", (0, 1), (-1, -1), 1.6)]
)
_HALVES = TableStyle([*style.PLAIN.getCommands(), ("BOTTOMPADDING", (0, 0), (-1, -1), 6)])
_LINE = "_" * 38
_ROOM = 4.0  # points that are left free on the page
_TEXT = style.BODY.clone("letter text", spaceAfter=4)
_SMALL = style.SMALL.clone("letter small", spaceAfter=0)


def write_letter(
    record: Record,
    catalogue: Catalogue,
    path: Path,
    recipient: str,
    options: PacketOptions,
    *,
    today: date,
) -> None:
    """Write a letter of one page.

    Args:
        record: The record.
        catalogue: Parameters, limits and panels.
        path: Where to write; an existing file is replaced when the new one is whole.
        recipient: One of `sentences.RECIPIENTS`.
        options: What a person chose; the reader and the originals do not matter here.
        today: The day that the letter speaks of.

    Raises:
        Fault: The folder can't be written, something chosen is not in the book, or there is no
            such language or choice of units.
        ValueError: There is no letter to such a recipient.
    """
    if recipient not in RECIPIENTS:
        raise ValueError(f"no letter to {recipient!r}")
    require_place(path, b"%PDF-")
    with translation.using(language(options.language)):
        history = tell(record, catalogue, today, options).history
        cautions = worded_cautions(read_cautions(paths.resources() / "cautions.toml"))
        who = sorted(people(record, today)) if options.with_personal else ()
        content = _content(letter(history, recipient, cautions, who), history, options.paper)
    write_whole(path, content)


def _content(one: Letter, history: History, size: str) -> bytes:
    style.register_fonts(paths.resources() / "fonts")
    day = paper.day(history.today)
    running = Running(
        title=f"{one.words.subject}: {history.title}",
        head="",
        kind="",
        foot=_("Wellbook {version}  ·  record {digest}  ·  as of {day}").format(
            version=__version__, digest=history.digest[:12], day=day
        ),
        subject=one.words.to,
    )
    with tempfile.TemporaryDirectory(prefix="wellbook-") as folder:
        pages = Path(folder) / "pages.pdf"
        sheet = Sheet(pages, style.PAPERS[size], running, Places())
        room = (sheet.width, sheet.height - _ROOM)
        sheet.set_pages([filled_page(partial(_story, one, history), room)])
        return pages.read_bytes()


def _story(one: Letter, history: History, width: float) -> list[Any]:
    said, cautions = one.words, [_text(f"• {line}") for line in one.cautions]
    meanwhile = _("What is usually said about such results, until we know more")
    return [
        _head(one, history, width),
        _text(f"{said.subject}: {history.title}", style.LEAD.clone("s", fontName=style.BOLD)),
        _text(said.opening),
        *(_people(one) if one.asks_of_people else []),
        _results(one, width),
        Spacer(1, 4),
        *(_text(line) for line in one.notes),
        *([_head_of(_("What happened, and how it ended")), *map(_text, one.past)]
          if one.past else []),
        *([Spacer(1, 2), pairs(list(one.house), width, 0.24), Spacer(1, 2)] if one.house else []),
        _head_of(_("We ask")),
        *(_text(f"{n}. {line}") for n, line in enumerate(said.asked, start=1)),
        *([_head_of(meanwhile), *cautions] if cautions else []),
        Spacer(1, 3),
        _text(said.closing),
        _text(_("Name, signature, telephone: {line}").format(line=_LINE)),
        HRFlowable(width="100%", thickness=0.4, color=style.RULE, spaceBefore=3, spaceAfter=3),
        _text(_(YARDSTICKS), _SMALL),
    ]  # fmt: skip


def _text(said: str, face: Any = _TEXT) -> Paragraph:
    return Paragraph(markup(said), face)


def _head_of(said: str) -> Paragraph:
    return _text(said, style.H3)


def _head(one: Letter, history: History, width: float) -> Table:
    """Whom it goes to and who writes, with room for what is not printed."""
    to = [_text(one.words.to, style.H3), _text(_LINE), _text(_LINE)]
    who = one.sender or (_LINE,)
    day = _text(paper.day(history.today))
    table = Table([[to, [_text(_("From"), style.H3), *map(_text, who), day]]],
                  colWidths=[width * 0.5] * 2)  # fmt: skip
    table.setStyle(_HALVES)
    return table


def _people(one: Letter) -> list[Paragraph]:
    """Who drinks the water: printed where that may be told, else to be filled in by hand."""
    if one.people:
        return [_text(_("It is drunk, among others, by: {people}.").format(people=one.people))]
    return [_text(_("Who drinks it, and since when: {line}").format(line=_LINE * 2))]


def _results(one: Letter, width: float) -> Table:
    rows = [
        [
            Marked(*style.SHAPES[row.judgement.verdict], ""),
            row.name,
            row.point,
            row.reading,
            verdict_words(row),
            row.limit,
            paper.day(row.day),
        ]
        for row in one.rows
    ]
    table = grid(_RESULTS, rows, width)
    table.setStyle(_TIGHT)
    return table
