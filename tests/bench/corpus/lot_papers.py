"""Reports as PDF put together by lot: rows drawn on pages in many ways."""

import io
from dataclasses import dataclass, field

import lot_tables
from facts import Truth
from lot_words import LABS, PEOPLE, STREETS, Lot
from reportlab.lib.pagesizes import A4, LETTER, landscape
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from writers import Rows

Made = tuple[bytes, list[Truth]]
_FONTS = (("Helvetica", "Helvetica-Bold"), ("Times-Roman", "Times-Bold"),
          ("Courier", "Courier-Bold"))  # fmt: skip
_PAGE = ("Page {n}", "Página {n}", "Page {n}", "Seite {n}")


@dataclass
class Sheet:
    """Pages that are filled from the top; the layout's dice choose fonts, rules and room."""

    lot: Lot
    is_wide: bool = False
    is_turned: bool = False
    file: io.BytesIO = field(default_factory=io.BytesIO)

    def __post_init__(self) -> None:
        choose = self.lot.shape.choice
        size = choose((LETTER, LETTER, A4)) if not self.lot.language else A4
        self.wide, self.high = landscape(size) if self.is_wide or self.is_turned else size
        self.plain, self.bold = choose((*_FONTS, _FONTS[0]))
        self.size = choose((8.5, 9.0, 10.0))
        self.step = self.size * choose((1.35, 1.5, 1.8))
        self.rules = choose(("none", "none", "lines", "boxes", "head"))
        self.at_right = self.lot.odds(0.25)
        self.left = choose((40, 54, 72))
        self.gap = choose((8, 12, 18))
        self.breaks_heads, self.is_broken = self.lot.odds(0.25), False
        # The canvas itself swaps the sides of a page that is turned.
        self.canvas = Canvas(self.file, pagesize=(self.wide, self.high), invariant=1)
        self.page = 0
        self.again: list = []
        self._start()

    def _start(self) -> None:
        self.page += 1
        if self.is_turned:
            self.canvas.setPageRotation(90)
            self.canvas.translate(self.high, 0)
            self.canvas.rotate(90)
        self.y = self.high - 50
        self.canvas.setFont(self.plain, 7)
        foot = _PAGE[self.lot.language].format(n=self.page)
        self.canvas.drawRightString(self.wide - 40, 26, foot)

    def room(self, lines: float = 1) -> None:
        """A new page if the lines don't fit on this one."""
        if self.y - lines * self.step < 48:
            self.canvas.showPage()
            self._start()
            for edges, head in self.again[-1:]:
                self._row(edges, head, self.bold, is_head=True)

    def line(self, text: str, *, bold: bool = False, size: float = 0) -> None:
        fits = stringWidth(text, self.bold, size or self.size) < self.wide - self.left - 20
        for part in [text] if fits else text.split("    "):
            self.room()
            self.canvas.setFont(self.bold if bold else self.plain, size or self.size)
            self.canvas.drawString(self.left, self.y, part)
            self.y -= self.step

    def paragraph(self, text: str) -> None:
        """Words broken at the right edge."""
        words, line = text.split(), ""
        for word in words:
            if stringWidth(f"{line} {word}", self.plain, self.size) > self.wide - 2 * self.left:
                self.line(line)
                line = word
            else:
                line = f"{line} {word}".strip()
        self.line(line)
        self.y -= self.step / 2

    def table(self, rows: Rows) -> None:
        """Rows of as many cells each; the first is the head. Lines of one cell part groups."""
        full = [row for row in rows if len(row) > 1]
        is_table = len(full[0]) > 2 and len(full) > 2
        edges = self._edges(full, has_head=is_table)
        for number, row in enumerate(rows):
            if len(row) == 1:
                self.line(row[0], bold=True)
                continue
            self.room()
            is_head = is_table and row is full[0] and not number
            self._row(edges, row, self.bold if is_head else self.plain, is_head=is_head)
            if is_head:
                self.again = [(edges, row)]
        self.again = []
        self.y -= self.step / 2

    def _edges(self, rows: Rows, *, has_head: bool) -> list[float]:
        """Left edges of the columns; a head is broken between words where room is short."""
        self.is_broken = has_head and self.breaks_heads
        while True:
            edges = [float(self.left)]
            for column in range(len(rows[0])):
                words = [row[column] for row in rows]
                if self.is_broken:
                    words[:1] = words[0].split() or [""]
                widest = max(stringWidth(word, self.bold, self.size) for word in words)
                edges.append(edges[-1] + widest + self.gap)
            if edges[-1] < self.wide - 20 or self.size <= 5:
                return edges
            if has_head and not self.is_broken:
                self.is_broken = True
            else:
                self.size, self.gap, self.left = self.size - 0.5, max(5, self.gap - 1), 36

    def _parts(self, cell: str, wide: float) -> list[str]:
        """The lines of a head in its column."""
        lines = [""]
        for word in cell.split():
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and stringWidth(longer, self.bold, self.size) > wide:
                lines.append(word)
            else:
                lines[-1] = longer
        return lines

    def _upper_lines(self, edges: list[float], row: list[str], font: str) -> list[str]:
        """Draws all but the last line of a broken head, and hands the last ones back."""
        heads = [self._parts(cell, edges[i + 1] - edges[i] - self.gap + 1)
                 for i, cell in enumerate(row)]  # fmt: skip
        deep = max(map(len, heads))
        self.canvas.setFont(font, self.size)
        for level in range(deep - 1):
            for at, parts in enumerate(heads):
                if len(parts) >= deep - level:
                    self.canvas.drawString(edges[at], self.y, parts[level - deep])
            self.y -= self.size * 1.15
        return [parts[-1] for parts in heads]

    def _row(self, edges: list[float], row: list[str], font: str, *, is_head: bool) -> None:
        if is_head and self.is_broken:
            row = self._upper_lines(edges, row, font)
        self.canvas.setFont(font, self.size)
        for at, cell in enumerate(row):
            if self.at_right and cell and cell[:1] in "<>0123456789" and not is_head and at:
                self.canvas.drawRightString(edges[at + 1] - self.gap, self.y, cell)
            else:
                self.canvas.drawString(edges[at], self.y, cell)
        foot, top = self.y - self.step * 0.3, self.y + self.step * 0.7
        if self.rules in {"lines", "boxes"} or (self.rules == "head" and is_head):
            self.canvas.line(edges[0] - 3, foot, edges[-1] - 3, foot)
        if self.rules == "boxes" and len(row) > 2:
            self.canvas.line(edges[0] - 3, top, edges[-1] - 3, top)
            for edge in edges:
                self.canvas.line(edge - 3, foot, edge - 3, top)
        self.y -= self.step

    def done(self) -> bytes:
        self.canvas.save()
        return self.file.getvalue()


def draw(sheet: Sheet, rows: Rows) -> bytes:
    """All rows: lines of text, facts and tables, each run of equal rows with its own columns."""
    run: Rows = []
    for at, row in enumerate([*rows, []]):
        nexts = rows[at + 1 : at + 2]
        is_group = (len(row) == 1 and run and len(run[-1]) > 2
                    and nexts and len(nexts[0]) == len(run[-1]))  # fmt: skip
        if run and not is_group and len(row) != len([r for r in run if len(r) > 1][-1]):
            sheet.table(run)
            run = []
        if len(row) > 1 or is_group:
            run.append(row)
        elif row:
            sheet.line(row[0], bold=not at, size=sheet.size + (4 if not at else 0))
        else:
            sheet.y -= sheet.step / 2
    return sheet.done()


def drawn(make: object, **how: bool) -> object:
    """A layout of rows as one of pages."""

    def paper(lot: Lot) -> Made:
        rows, truths = make(lot)
        return draw(Sheet(lot, **how), rows), truths

    return paper


def many_pages(lot: Lot) -> Made:
    """More rows than a page holds, the heads of columns on each."""
    sample = lot.sample(26)
    table = lot_tables.Table(lot)
    sheet = Sheet(lot)
    sheet.step = lot.shape.choice((22, 26, 30))
    about = lot_tables.facts(lot, sample, ("client", "number", "point", "day"))
    rows = [*lot_tables.title(lot), *about, [], *table.block(sample)]
    rows += [[], *lot_tables.below(lot)]
    return draw(sheet, rows), sample.truths()


def two_columns(lot: Lot) -> Made:
    """Names and figures in two columns of the page, each with its own head."""
    sample, sheet = lot.sample(14), Sheet(lot)
    for row in [*lot_tables.title(lot), *lot_tables.facts(lot, sample, ("point", "day"))]:
        sheet.line("   ".join(row))
    head = [lot.head("name"), lot.head("result"), lot.head("unit")]
    start, sheet.size, half = sheet.y - 10, 8, len(sample.lines) // 2
    for at, lines in enumerate((sample.lines[:half], sample.lines[half:])):
        sheet.y, sheet.left = start, 40 + at * 280
        sheet.gap = 8
        sheet.table([head, *[[r.name, r.text, r.unit] for r in lines]])
    return sheet.done(), sample.truths()


def dotted(lot: Lot) -> Made:
    """A list with leaders between the name and the figure, no head."""
    sample, sheet = lot.sample(10), Sheet(lot)
    for row in [*lot_tables.title(lot), *lot_tables.facts(lot, sample, ("number", "point", "day"))]:
        sheet.line("   ".join(row))
    sheet.y -= 12
    dots = lot.shape.choice((" .......... ", " . . . . . . ", ": "))
    for line in sample.lines:
        sheet.line(f"{line.name}{dots}{line.text} {line.unit}".strip())
    return sheet.done(), sample.truths()


_THANKS = (
    "Thank you for sending us a sample of your well water. It was taken on {day} from the {point} "
    "and arrived in good order. The results are as follows."
)
_ADVICE = (
    "The federal limit for nitrate is 10 mg/L as nitrogen and for arsenic 10 ug/L. We suggest that "
    "you test every year. Call 555-0117 if you have questions."
)
_LETTER = (
    ("Dear {who},", _THANKS, _ADVICE, "Sincerely,"),
    ("Estimado cliente:", "Le comunicamos los resultados de la muestra tomada el {day} en {point}.",
     "El valor paramétrico de nitrato es de 50 mg/L.", "Atentamente,"),
    ("Madame, Monsieur,", "Voici les résultats de l'échantillon prélevé le {day} ({point}).",
     "La limite de qualité des nitrates est de 50 mg/L.", "Cordialement,"),
    ("Guten Tag,", "hier die Ergebnisse der Probe vom {day}, Entnahmestelle {point}.",
     "Der Grenzwert für Nitrat beträgt 50 mg/L.", "Mit freundlichen Grüßen"),
)  # fmt: skip


def letter(lot: Lot) -> Made:
    """A letter with the results in a table between its paragraphs."""
    sample, sheet = lot.sample(lot.throw.randint(6, 10)), Sheet(lot)
    hello, before, after, bye = _LETTER[lot.language]
    person = lot.throw.choice(PEOPLE)
    written = lot.printed(lot.later(sample.day, 9))
    for text in (lot.throw.choice(LABS), lot.throw.choice(STREETS), written):
        sheet.line(text)
    sheet.y -= 20
    sheet.line(hello.format(who=person))
    sheet.paragraph(before.format(day=lot.printed(sample.day, style=2), point=sample.point))
    slots = lot.shape.choice((("name", "result", "unit"), ("name", "result", "unit", "limit"),
                              ("name", "unit", "result")))  # fmt: skip
    table = lot_tables.Table(lot, unit="column")
    table.slots = list(slots)
    sheet.table([[lot.head(s) for s in slots], *[table.row(sample, r) for r in sample.lines]])
    sheet.paragraph(after)
    sheet.line(bye)
    sheet.line(lot.throw.choice(PEOPLE))
    return sheet.done(), sample.truths()
