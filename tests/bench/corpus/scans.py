"""Scans and photos of pages whose columns stand close: fonts, widths and rules thrown by lot."""

import io
from collections.abc import Iterator

import numpy as np
import pypdfium2
from facts import LANGUAGES, Dice, LabFile, Truth
from PIL import Image, ImageFilter
from reportlab.lib.pagesizes import A4
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from sheet_layouts import HEADS, clear_day, printed_day

PAGES = 12
_FONTS = (("Helvetica", "Helvetica-Bold"), ("Times-Roman", "Times-Bold"), ("Courier",) * 2)


def scans(pages: int = PAGES) -> Iterator[LabFile]:
    """Pages in four languages; each third is a photo taken at an angle."""
    for number in range(pages):
        dice = Dice(f"scan-{number}", number % len(LANGUAGES))
        paper, truths = _page(dice)
        drawn = pypdfium2.PdfDocument(paper)[0].render(
            scale=dice.throw.choice((200, 250, 300)) / 72
        )
        picture = (_photo if number % 3 == 2 else _scan)(drawn.to_pil().convert("L"), dice)
        kept = io.BytesIO()
        picture.save(kept, "JPEG", quality=dice.throw.randint(60, 85))
        yield LabFile(f"scan-{number}.jpg", "scans", kept.getvalue(), tuple(truths))


def _page(dice: Dice) -> tuple[bytes, list[Truth]]:
    """A report whose columns have no more room between them than words, or a little more."""
    head, day, panel, throw = HEADS[dice.language], clear_day(dice), dice.panel(10), dice.throw
    rows = [[head[0], head[1], head[2], head[3], head[6]]]
    rows += [[r.name, r.text, r.unit, str(throw.randint(2, 90)), "EPA 200.8"] for r in panel]
    (plain, bold), size, gap = throw.choice(_FONTS), throw.uniform(8.5, 11), throw.uniform(4, 14)
    edges = [60.0]
    for column in range(len(rows[0])):
        edges.append(edges[-1] + gap + max(stringWidth(row[column], bold, size) for row in rows))
    file = io.BytesIO()
    canvas = Canvas(file, pagesize=A4, invariant=1)
    canvas.setFont(plain, 10)
    canvas.drawString(60, 760, dice.lab)
    canvas.drawString(60, 735, f"{head[4]}: {printed_day(day, dice.language)}")
    is_ruled, y, step = throw.random() < 0.5, 700.0, size * throw.uniform(1.4, 2)
    for number, row in enumerate(rows):
        canvas.setFont(plain if number else bold, size)
        for left, text in zip(edges, row, strict=False):
            canvas.drawString(left + gap / 2, y, text)
        if is_ruled:
            canvas.line(edges[0], y - step / 3, edges[-1], y - step / 3)
        y -= step
    canvas.save()
    return file.getvalue(), [reading.on(day) for reading in panel]


def _scan(page: Image.Image, dice: Dice) -> Image.Image:
    """Laid on the glass a little askew."""
    turned = page.rotate(dice.throw.uniform(-1.5, 1.5), Image.Resampling.BICUBIC, fillcolor=255)
    return turned.filter(ImageFilter.GaussianBlur(0.5))


def _photo(page: Image.Image, dice: Dice) -> Image.Image:
    """From aslant, on a dark desk, lit from one side."""
    wide, high = page.size
    shift = [dice.throw.uniform(0, 0.02) * wide for _ in range(8)]
    corners = (-shift[0], -shift[1], -shift[2], high + shift[3],
               wide + shift[4], high + shift[5], wide + shift[6], -shift[7])  # fmt: skip
    aslant = page.transform(page.size, Image.Transform.QUAD, corners, Image.Resampling.BICUBIC,
                            fillcolor=90)  # fmt: skip
    light = np.asarray(aslant, dtype=float) * np.linspace(0.7, 1, wide)
    noise = np.random.default_rng(dice.throw.randint(0, 10**6)).normal(0, 5, light.shape)
    return Image.fromarray(np.clip(light + noise, 0, 255).astype("uint8"))
