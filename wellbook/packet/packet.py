"""The history PDF: gathers the facts, sets the pages, stamps the charts, writes the file whole.

The same book, choices and day give the same bytes.
"""

import tempfile
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wellbook.book.record import Record
from wellbook.packet.options import PacketOptions
from wellbook.planning.settings import scheme, unit_choice
from wellbook.sandbox import process
from wellbook.sharing.excerpt import LeftOut, Scope, excerpt, left_out
from wellbook.support import paths, translation
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import require_place, write_whole
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.unit_choices import in_units

if TYPE_CHECKING:
    from wellbook.packet.context import PacketContext
    from wellbook.packet.gather import History
    from wellbook.sharing.covered import Hit
    from wellbook.sharing.redaction import Privacy


def write(
    record: Record,
    catalogue: Catalogue,
    path: Path,
    options: PacketOptions,
    *,
    today: date,
    check_cancelled: process.CancelCheck = process.never_cancelled,
) -> int:
    """Write the history of a book's wells as a PDF.

    Args:
        record: The record.
        catalogue: Parameters, limits and panels.
        path: Where to write; an existing file is replaced when the new one is whole.
        options: What a person chose.
        today: The day that the packet speaks of.
        check_cancelled: Called just before the file is put in its place; what it raises leaves
            what was there.

    Returns:
        How many of the documents that were asked for don't go along, or not with all their pages.

    Raises:
        Fault: The folder can't be written, something chosen is not in the book, or there is no
            such language or choice of units.
    """
    require_place(path, b"%PDF-")
    with translation.using(language(options.language)):
        context = gathered(record, catalogue, today, options)
        content = _content(context, options)
    write_whole(path, content, check_cancelled=check_cancelled)
    going = {one.document.id for one in context.originals if not one.why}
    behind = {one.document.id for one in context.originals if one.why}
    behind |= {
        one.document.id for _unused, one in context.appended if one.trouble or any(one.pages)
    }
    return len(behind - going)


def private_places(record: Record, catalogue: Catalogue, options: PacketOptions) -> "list[Hit]":
    """Where private words stand that a packet covers, for the household to see before it is made.

    Raises:
        Fault: Something chosen is not in the book.
    """
    from wellbook.sharing.covered import hits
    from wellbook.sharing.redaction import privacy

    part = record if options.is_whole else excerpt(record, options.scope, catalogue)
    cover = privacy(part, with_personal=options.with_personal, shown=options.shown)
    return hits(part, cover)


def language(key: str) -> translation.Language:
    """A language that pages can be written in.

    Raises:
        Fault: There is no such language.
    """
    if key not in translation.LANGUAGES:
        raise Fault(
            _("There is no language {key}; there is: {LANGUAGES}.").format(
                key=key, LANGUAGES=", ".join(translation.LANGUAGES)
            )
        )
    return translation.read_language(paths.resources() / "languages", key)


def _content(context: "PacketContext", options: PacketOptions) -> bytes:
    from wellbook.packet import stamping
    from wellbook.packet.sections import story
    from wellbook.pdf import style
    from wellbook.pdf.document import Sheet

    style.register_fonts(paths.resources() / "fonts")
    size = style.PAPERS[options.paper]
    with tempfile.TemporaryDirectory(prefix="wellbook-") as folder:
        pages = Path(folder) / "pages.pdf"
        context.places.after = sum(
            len(one.pages) for _name, one in context.appended if not one.trouble
        )
        around = running(context)
        Sheet(pages, size, around, context.places).set_pages(story(context, size, around))
        drawings: list[stamping.Drawing] = [
            *(figure.chart for figure in context.figures),
            *(replace(wheel, title="") for wheel in context.wheels),  # the words beside it say so
            *context.ions,
        ]
        charts = stamping.drawn(drawings, context.places.spots) if context.places.spots else b""
        return stamping.finish(pages, charts, context)


@dataclass(frozen=True, slots=True)
class Told:
    """What a person chose of a record, and what may be told of it.

    Attributes:
        whole: The record.
        part: What was chosen of it.
        seen: What was chosen, private words covered unless personal facts are put in.
        history: What is told of that.
        cover: What covers them.
    """

    whole: Record
    part: Record
    seen: Record
    history: "History"
    cover: "Privacy"


def tell(record: Record, catalogue: Catalogue, today: date, options: PacketOptions) -> Told:
    """Choose what is told of a record, and cover in it what is private.

    Raises:
        Fault: Something chosen is not in the book, or there is no such choice of units.
    """
    from wellbook.packet.gather import gather
    from wellbook.sharing.covered import covered_record
    from wellbook.sharing.redaction import privacy
    from wellbook.water.sampling.upkeep import read_upkeep
    from wellbook.wording.reference import worded, worded_upkeep

    whole = record.loaded()
    part, left = whole, None
    if not options.is_whole:
        part = excerpt(whole, options.scope, catalogue)
        left = left_out(whole, part, options.scope, catalogue)
    shown = worded(in_units(catalogue, unit_choice(options.units, catalogue)))
    cover = privacy(part, with_personal=options.with_personal, shown=options.shown)
    seen = part if options.with_personal else covered_record(part, cover)
    if left is not None:
        left = replace(left, chosen=tuple(map(cover.cover, left.chosen)))
    history = gather(
        seen,
        shown,
        today,
        with_personal=options.with_personal,
        left_out=left,
        upkeep=worded_upkeep(read_upkeep(paths.resources())),
    )
    return Told(whole, part, seen, history, cover)


def gathered(
    record: Record, catalogue: Catalogue, today: date, options: PacketOptions
) -> "PacketContext":
    """All that the pages of a packet are set from, in the language that is spoken now.

    Raises:
        Fault: Something chosen is not in the book, or there is no such choice of units.
    """
    from wellbook.packet.attachments import attachments
    from wellbook.packet.charts import figures, wheels
    from wellbook.packet.context import PacketContext
    from wellbook.packet.pages.ions import ion_diagrams
    from wellbook.packet.pages.originals import appended
    from wellbook.packet.travelling import travelling
    from wellbook.pdf.style import PAPERS as SIZES
    from wellbook.pdf.style import SIDE
    from wellbook.planning.place.whom_to_ask import for_a_reader, of_labs, rules_at
    from wellbook.sharing.attachable import held
    from wellbook.sharing.covered import covered_record
    from wellbook.sharing.redaction import identifying_words
    from wellbook.water.cautions.cautions import read_cautions
    from wellbook.water.sampling.sale_rules import read_sale_rules
    from wellbook.wording.reference import worded_cautions, worded_rules

    told = tell(record, catalogue, today, options)
    whole, part, history, cover = told.whole, told.part, told.history, told.cover
    units = unit_choice(options.units, catalogue)
    searched_for = identifying_words(
        part, with_personal=options.with_personal or options.all_originals
    )
    shown = {document.id for document in history.documents}
    documents = [one for one in part.documents if options.originals and one.id in shown]
    originals = held(part, documents, searched_for, seconds=options.patience)
    plain = told.seen
    if not options.with_personal and translation.current() != translation.ENGLISH.key:
        with translation.using(translation.ENGLISH):  # what programs read is one in all languages
            plain = covered_record(part, cover)
    attached = attachments(
        plain,
        catalogue,
        with_personal=options.with_personal,
        told=travelling(plain, today, _in_english(whole, part, options.scope, catalogue, cover)),
        originals=originals,
        with_journal=options.is_whole,
    )
    technical = options.is_technical
    return PacketContext(
        history=history,
        width=SIZES[options.paper][0] - 2 * SIDE,
        technical=technical,
        figures=figures(history, scheme(record.settings), technical=technical),
        wheels=wheels(history, scheme(record.settings)),
        ions=ion_diagrams(history) if technical else (),
        cautions=for_a_reader(
            worded_cautions(read_cautions(paths.resources() / "cautions.toml")), record.settings
        ),
        attachments=attached,
        with_originals=options.originals,
        originals=originals,
        appended=appended(part, history, searched_for, seconds=options.patience)
        if options.append_originals
        else (),
        closing=options.closing,
        sale_rules=worded_rules(
            rules_at(read_sale_rules(paths.resources() / "sale_rules.csv"), record.settings)
        ),
        labs_here=of_labs(record.settings),
        units=units.name,
    )


def _in_english(
    record: Record, part: Record, scope: Scope, catalogue: Catalogue, cover: "Privacy"
) -> LeftOut | None:
    """What an excerpt leaves out, in the language of what programs read."""
    if part is record:
        return None
    with translation.using(translation.ENGLISH):
        left = left_out(record, part, scope, catalogue)
    return replace(left, chosen=tuple(map(cover.cover, left.chosen)))


def running(context: "PacketContext") -> Any:
    """What stands at the head and foot of every page."""
    from wellbook.packet.pages.cover import foot
    from wellbook.pdf.document import Running

    day = context.history.today.isoformat()
    if context.technical:
        kind = _("The history of its water, for a consultant")
        subject = _("Well water history for a consultant, as of {day}").format(day=day)
    else:
        kind = _("The history of its water, for a buyer")
        subject = _("Well water history for a buyer, as of {day}").format(day=day)
    return Running(
        title=_("{wells}: the history of its water").format(wells=context.history.title),
        head=context.history.title,
        kind=kind,
        foot=foot(context.history),
        subject=subject,
    )
