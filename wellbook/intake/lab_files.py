"""From a lab's file to a draft: files of all kinds, whatever their layout."""

import mimetypes
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Any

from wellbook.book.rows import NewDocument
from wellbook.intake import inside, records
from wellbook.intake.draft import Draft
from wellbook.intake.files import (
    open_documents,
    plain_lines,
    spreadsheets,
    text_tables,
    web_tables,
    word_documents,
)
from wellbook.intake.files.kinds import Kind, content_of, files_in, kind_of
from wellbook.intake.files.sheets import Cells, Place, Sheet
from wellbook.intake.lengths import (
    MOST_ROWS,
    NoTable,
    check_bounds,
    no_results,
    shortened,
    too_long,
    too_many,
)
from wellbook.intake.pages.rows import sheet_of
from wellbook.intake.pages.words import (
    Watch,
    most_pages,
    nobody_watches,
    words_in_picture,
    words_of,
)
from wellbook.intake.prose import letters
from wellbook.intake.samples import formulas
from wellbook.intake.samples.accounts import unaccounted
from wellbook.intake.samples.accreditation import accreditation_in
from wellbook.intake.samples.days import days_of, texts_in, undated, with_the_only_day
from wellbook.intake.samples.decimals import commas
from wellbook.intake.samples.file_questions import (
    all_aside,
    comma_of,
    hidden_parts,
    is_abroad,
    mostly_words,
    none_of_ours,
    numbers_in,
    of_commas,
    say_guess,
    which_columns,
    with_comma_doubt,
    with_doubt,
    with_hidden_doubts,
)
from wellbook.intake.samples.results import Maker
from wellbook.intake.samples.samples import Grouping
from wellbook.intake.tables import layout
from wellbook.intake.tables.loose_cells import of_no_table
from wellbook.intake.tables.tables import NotTaken, Table, tell_beside
from wellbook.intake.words.dates import Order, usual_order
from wellbook.intake.words.log import Log
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import shown_name
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding

_DEEPEST = 2  # archives in mails in archives; our own bound
_START = 60_000  # characters of a text by which it is seen whether a person wrote it
PICTURED = "pictured"  # doubt of every figure that was read from a picture


@dataclass(frozen=True, slots=True)
class Told:
    """What a person says about a file.

    Attributes:
        order: What comes first in dates such as 03/05/2025; UNKNOWN to find it out.
        country: ISO 3166-1 code of the household's country, which decides where the dates of a
            file don't.
        dates: What the household says its labs put first; empty to go by the country.
        decimal: What they write before decimals, `point` or `comma`; empty if that isn't known.
        password: With which a PDF opens.
        columns: Headings of which a person said that they are samples of their water, or not.
    """

    order: Order = Order.UNKNOWN
    country: str = ""
    dates: str = ""
    decimal: str = ""
    password: str = ""
    columns: Mapping[str, bool] = field(default_factory=dict)


def read(
    path: Path,
    catalogue: Catalogue,
    *,
    order: Order = Order.UNKNOWN,
    today: date | None = None,
    watch: Watch = nobody_watches,
    **told: Any,
) -> Draft:
    """Read a lab's file of any kind into a draft: tables, text, PDF with text, mail, archive.

    Args:
        path: The file. It is only read.
        catalogue: Parameters by all the names that labs give them.
        order: What comes first in dates such as 03/05/2025, if a person says so.
        today: The day after which a date lies in the future; the present day if not given.
        watch: See `words_in_picture`.
        told: More of what a person says: the other fields of `Told`.

    Raises:
        Locked: A PDF opens with a password only.
        Fault: The file can't be read, is damaged, or is no table of results.
    """
    reader = _Reader(catalogue, Told(order, **told), today or date.today(), watch)
    return reader.draft(path, content_of(path))


def read_pasted(
    text: str,
    catalogue: Catalogue,
    *,
    order: Order = Order.UNKNOWN,
    today: date | None = None,
    **told: Any,
) -> Draft:
    """Read a table or a text that was copied from a web page, a spreadsheet or a mail.

    The arguments, and what is raised, are those of `read`; the text itself becomes the document.
    """
    if not text.strip():
        raise Fault(_("Nothing was pasted: copy the table of results first."))
    reader = _Reader(catalogue, Told(order, **told), today or date.today())
    return reader.draft(Path("copied table.tsv"), text.encode(), Kind.TEXT)


def sheets_of_kept(content: bytes, name: str, catalogue: Catalogue) -> tuple[Sheet, ...]:
    """The cells of a document that was kept; faults as `read`."""
    return _Reader(catalogue, Told(), date.today()).draft(Path(name), content).sheets


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads one file by the catalogue and by what a person says of it."""

    catalogue: Catalogue
    told: Told
    today: date
    watch: Watch = nobody_watches

    def draft(self, path: Path, content: bytes, kind: Kind | None = None) -> Draft:
        """The draft of a file, with the file as document of its samples."""
        document = NewDocument(
            shown_name(path), mimetypes.guess_type(path.name)[0] or "text/csv", content
        )
        return self._of(content, path, path.name, kind, (document, 0))

    def _of(
        self,
        content: bytes,
        path: Path,
        name: str,
        kind: Kind | None,
        kept: tuple[NewDocument, int],
    ) -> Draft:
        kind = kind or kind_of(content, name)
        if kind in {Kind.ARCHIVE, Kind.MESSAGE}:
            return self._of_many(content, path, kind, kept)
        if kind is Kind.TEXT:
            return self._of_text(content, path, name, kept[0])
        sheets = self._sheets(content, name, kind)
        try:
            draft = self._of_sheets(sheets, path, name, kept[0])
            return self._with_sentences(draft, sheets[0]) if sheets[0].is_paper else draft
        except NoTable as trouble:
            return self._of_letters(sheets, path, name, kept[0], trouble)

    def _sheets(self, content: bytes, name: str, kind: Kind) -> tuple[Sheet, ...]:
        if kind in {Kind.PDF, Kind.PICTURE}:
            return self._pages(content, name, is_picture=kind is Kind.PICTURE)
        if kind in {Kind.DOCX, Kind.ODT}:
            of_word = kind is Kind.DOCX
            return (word_documents.sheets if of_word else open_documents.sheets)(content, name)
        if kind is Kind.PAGE:
            return web_tables.sheets(text_tables.decode(content, name))
        if kind is Kind.JSON:
            return records.from_json(text_tables.decode(content, name), name)
        if kind is Kind.XML:
            return records.from_xml(content, name)
        return spreadsheets.sheets(content, name, with_formats=kind is Kind.XLSX)

    def _pages(self, content: bytes, name: str, *, is_picture: bool) -> tuple[Sheet, ...]:
        words, count = ([], 0) if is_picture else words_of(content, name, self.told.password)
        if not any(words):
            return (_pictured(content, name, self.watch),)
        sheet = sheet_of(words, layout.is_heading_of_page)
        if count > most_pages():
            said = _("Only the first {n} of {count} pages were read.")
            finding = Finding("pages", said.format(n=most_pages(), count=count))
            sheet = replace(sheet, findings=(finding,))
        return (sheet,)

    def _of_text(self, content: bytes, path: Path, name: str, document: NewDocument) -> Draft:
        """A text of cells or of lines, or else a letter that tells figures in sentences."""
        text = text_tables.decode(content, name)
        cells = text_tables.with_several_in_cells(text, name, layout.likeness)
        try:
            draft = self._of_lines(text, path, name, document, cells)
        except Fault as trouble:
            page = Sheet("", cells) if cells else plain_lines.uncut(text)
            return self._of_letter(page, path, name, document, trouble)
        if text.count("\n") >= letters.MOST_LINES:
            return draft  # too many to look for sentences among them
        return self._with_sentences(draft, plain_lines.uncut(text))

    def _with_sentences(self, draft: Draft, page: Sheet) -> Draft:
        """A draft that also lists what sentences beside its tables tell."""
        if len(page.rows) > letters.MOST_LINES:
            return draft
        places = [one.place for one in draft.not_taken]
        places += [mark.place for sample in draft.samples for mark in sample.marks]
        at = {(place.page, place.row) for place in places}
        of_line = [page.place(index, 0) for index in range(len(page.rows))]
        known = {n for n, place in enumerate(of_line, 1) if (place.page, place.row) in at}
        more = letters.told_beside(letters.text_of(page), self.catalogue, known)
        why = _("it stands in a sentence, or in a line that was not understood")
        left = [NotTaken(what, why, page.place(line - 1, 0)) for what, line in more]
        return replace(draft, not_taken=(*draft.not_taken, *left))

    def _of_letters(
        self, sheets: Sequence[Sheet], path: Path, name: str, document: NewDocument, trouble: Fault
    ) -> Draft:
        """The readings of sentences in the first of some sheets that has any."""
        for sheet in sheets:
            others = tuple(other for other in sheets if other is not sheet)
            try:
                return self._of_letter(sheet, path, name, document, trouble, others)
            except NoTable:
                continue
        raise trouble

    def _of_letter(
        self,
        page: Sheet,
        path: Path,
        name: str,
        document: NewDocument,
        trouble: Fault,
        others: tuple[Sheet, ...] = (),
    ) -> Draft:
        """The readings of sentences, each of them asked about; the trouble itself without any."""
        text = letters.text_of(page)
        letter = letters.sheet_of(text, self.catalogue, page.lines)
        if letter is None:
            raise trouble
        letter = letters.beside(letter, page)
        draft = self._of_sheets((letter, *others), path, name, document)
        why = _("its sentence was not understood")
        more = letters.left_in(text, self.catalogue)
        listed = {(one.place.row, one.what.lstrip("<≤ ")) for one in draft.not_taken}
        left = [
            NotTaken(what, why, page.place(line - 1, 0))
            for what, line in more
            if (page.place(line - 1, 0).row, what.lstrip("<≤ ")) not in listed
        ]
        samples = with_doubt(draft.samples, letters.PROSE)
        return replace(draft, samples=samples, not_taken=(*draft.not_taken, *left), headings="")

    def _of_lines(
        self, text: str, path: Path, name: str, document: NewDocument, quoted: list[Cells]
    ) -> Draft:
        """A text of separated cells, or else one that a person wrote."""
        if quoted:
            sheet = Sheet("", quoted, has_open_end=not text.endswith(("\n", "\r")))
            return self._of_sheets((sheet,), path, name, document)
        if text.count("\n") > 2 * MOST_ROWS:
            raise too_many(name)
        written = plain_lines.sheet_of(text[:_START]).rows
        try:
            rows = text_tables.split(text, name, layout.likeness)
        except Fault:
            if layout.likeness(written) < 2:  # noqa: PLR2004
                raise
            return self._of_sheets((plain_lines.sheet_of(text),), path, name, document)
        cells = Sheet("", rows, has_open_end=not text.endswith(("\n", "\r")))
        order = (lambda: plain_lines.sheet_of(text), lambda: cells)
        if layout.likeness(written) <= layout.likeness(rows):
            order = order[::-1]
        try:
            return self._of_sheets((order[0](),), path, name, document)
        except NoTable as trouble:
            try:
                return self._of_sheets((order[1](),), path, name, document)
            except NoTable:
                raise trouble from None

    def _of_many(
        self, content: bytes, path: Path, kind: Kind, kept: tuple[NewDocument, int]
    ) -> Draft:
        """Each file in an archive or a mail, one after another, in one draft."""
        document, depth = kept
        if depth >= _DEEPEST:
            raise no_results(path.name)
        drafts: list[tuple[str, Draft]] = []
        unread: list[NotTaken] = []
        for name, inner in files_in(content, kind, path.name):
            title = name or _("the text of the mail")
            try:
                drafts.append((name, self._of(inner, path, title, None, (document, depth + 1))))
            except Fault as fault:
                if name or not isinstance(fault, NoTable):
                    unread.append(NotTaken(title, str(fault), Place(title)))
        if not drafts:
            if len(unread) == 1:
                raise Fault(f"{path.name}: {unread[0].why}")
            raise no_results(path.name)
        samples = tuple(inside.sample(s, name) for name, draft in drafts for s in draft.samples)
        findings = tuple(inside.findings(drafts))
        left = tuple(inside.not_taken(n, name) for name, draft in drafts for n in draft.not_taken)
        sheets = tuple(inside.sheet(s, name) for name, draft in drafts for s in draft.sheets)
        accredited = next(filter(None, (draft.accreditation for _name, draft in drafts)), "")
        headings = "; ".join(dict.fromkeys(filter(None, (one.headings for _n, one in drafts))))
        return Draft(path, samples, findings, (*left, *unread), sheets, accredited, headings)

    def _of_sheets(
        self, sheets: tuple[Sheet, ...], path: Path, name: str, document: NewDocument
    ) -> Draft:
        check_bounds(sheets, name)
        sheets = tuple(map(shortened, sheets))
        tables, left = self._tables(sheets, name)
        with_the_only_day(tables, sheets, self.today)
        log = Log()
        abroad = is_abroad(tables, self.catalogue)
        usual = usual_order(self.told.country, is_abroad=abroad, dates=self.told.dates)
        days, odd = days_of(texts_in(tables), self.today, self.told.order, usual, sheets)
        comma = commas(numbers_in(tables), self.told.decimal)
        for trouble in (*odd, *of_commas(comma)):
            log.add(trouble)
        believed = formulas.believed(tables, self.catalogue)
        grouping = Grouping(days, Maker(self.catalogue, days, comma.are_decimal, believed), log)
        for table in tables:
            say_guess(table, log)
            grouping.maker.decimal_comma = comma_of(table, comma)
            grouping.take(table)
            for index, words in table.undated:
                log.add(undated(words), *table.source.where(index))
        samples = with_hidden_doubts(grouping.samples(document, sheets), sheets)
        left += [one for table in tables for one in table.not_taken]
        if not samples and not left and not all_aside(grouping.not_taken):
            raise no_results(name)
        of_cells = tuple(finding for sheet in sheets for finding in sheet.findings)
        asked = (
            *which_columns(samples, left),
            *none_of_ours(samples, left),
            *mostly_words(samples),
            *hidden_parts(samples),
        )
        findings = (*log.findings(), *asked, *of_cells, *too_long(samples))
        samples = with_comma_doubt(samples, comma)
        if any(finding.key == PICTURED for finding in of_cells):
            samples = with_doubt(samples, PICTURED)
        shown = tuple(sheet for sheet in sheets if not sheet.is_paper)
        left += grouping.not_taken
        accredited, kept = accreditation_in(sheets)
        left += unaccounted(sheets, tables, (samples, left, kept), self.catalogue, self.today)
        heads = layout.heads_of(sheets)
        return Draft(path, samples, findings, tuple(left), shown, accredited, heads)

    def _tables(self, sheets: tuple[Sheet, ...], name: str) -> tuple[list[Table], list[NotTaken]]:
        """All tables of a file; what one sheet doesn't tell of its samples another may."""
        columns = dict(self.told.columns)
        found = [
            (layout.tables_in(sheet, name, self.catalogue, self.today, columns), sheet)
            for sheet in sheets
            if sheet.rows
        ]
        tables = [table for (own, _facts), _sheet in found for table in own]
        if not tables:
            raise no_results(name)
        others = {r: text for (own, facts), _sheet in found if not own for r, text in facts.items()}
        tell_beside(tables, others, self.today)
        bare = (sheet for (own, _facts), sheet in found if not own)
        return tables, [one for sheet in bare for one in of_no_table(sheet, self.catalogue)]


def _pictured(content: bytes, name: str, watch: Watch) -> Sheet:
    """A scan or a photo as a sheet, each of whose figures is asked about."""
    words = words_in_picture(content, name, watch)
    sheet = sheet_of(words, layout.is_heading, are_pictures=True)
    text = _("Read from a picture: compare each figure with the page before you keep it.")
    return replace(sheet, findings=(Finding(PICTURED, text),))
