"""A scan and a photo of a report, dropped on the window."""

import io
import sys

import doors
import hand
import pypdfium2
from PIL import Image
from PySide6.QtWidgets import QLineEdit
from recorder import entries
from reportlab.pdfgen.canvas import Canvas

from wellbook.window.dialogs.report.page_view import PageView
from wellbook.window.widgets.message_bar import MessageBar

PAGE_WIDE = 200  # pixels
MINUTES = 5
ROWS = (
    ("Parameter", "Result", "Unit", "Limit"),
    ("Chloride", "21.5", "mg/L", "250"),
    ("Iron", "0.12", "mg/L", "0.3"),
    ("Manganese", "0.031", "mg/L", "0.05"),
    ("Lead", "1.4", "ug/L", "15"),
    ("Sulfate", "48.2", "mg/L", "250"),
)


def scanned(path, day, turned, pages=(ROWS,)):
    """Pages of columns that stand close, drawn, turned a little, and kept as picture or PDF."""
    paper = io.BytesIO()
    canvas = Canvas(paper, pagesize=(420, 300), invariant=1)
    for rows in pages:
        canvas.setFont("Helvetica", 11)
        canvas.drawString(60, 260, f"Collected: {day}")
        for number, row in enumerate(rows):
            for left, text in zip((60, 140, 190, 240), row, strict=True):
                canvas.drawString(left, 225 - 18 * number, text)
        canvas.showPage()
    canvas.save()
    drawn = [page.render(scale=200 / 72).to_pil() for page in pypdfium2.PdfDocument(paper)]
    first, *others = (
        page.convert("L").rotate(turned, Image.Resampling.BICUBIC, fillcolor=255) for page in drawn
    )
    more = {"save_all": True, "append_images": others} if others else {}
    first.save(path, resolution=200, **more)


def read_and_kept(told):
    """The reading of a scan is stopped; then a scan and a photo are decided by keys and kept."""
    scan, photo = told.folder / "scan.pdf", told.folder / "photo.jpg"
    scanned(scan, "2026-10-14", 0.9, (ROWS[:4], ROWS[:1] + ROWS[4:]))
    scanned(photo, "2026-10-15", -0.6)
    before = entries(told.books[0])
    yield from hand.drop([scan], hand.main_window(), rests=False)
    yield from _until(lambda: "page 2 of 2" in bar().text)
    _picture(told, "reading")
    yield from hand.push("Stop reading")
    yield hand.Rest()
    told.facts["stopped"] = bar().text
    for file in (scan, photo):
        yield from hand.drop([file], hand.main_window(), rests=False)
        yield from _until(lambda: hand.dialog() is not None)
        yield hand.Rest()
        _picture(told, f"{file.suffix[1:]} to review")
        yield from doors.choose_point()
        keep = hand.button("Keep it")
        told.facts[f"{file.suffix} kept unseen"] = keep is not None
        yield from hand.press("F8")
        for _row in ROWS[1:]:
            yield from hand.press("Space")
            yield from hand.press("F8")
        told.note(f"{file.name}: decided")
        _picture(told, f"{file.suffix[1:]} decided")
        yield from hand.push("Keep it")
        yield lambda: hand.dialog() is None
        yield hand.Rest()
    told.facts["kept"] = entries(told.books[0]) - before


def typed_beside_it(told):
    """Without the extra the window names it, shows the page, and what is typed is kept."""
    photo = told.folder / "photo.png"
    scanned(photo, "2026-10-14", 0.5)
    sys.modules["rapidocr"] = None  # as if it were not installed
    before = entries(told.books[0])
    yield from hand.drop([photo], hand.main_window())
    yield lambda: "No table can be read" in bar().text
    told.facts["said"] = bar().text
    _picture(told, "named")
    yield from hand.push("Type in photo.png")
    yield lambda: hand.dialog() is not None
    yield hand.Rest(10)
    (page,) = hand.visible(PageView)
    told.facts["page"] = page.width() > PAGE_WIDE
    _picture(told, "beside the page")
    yield from hand.write("2026-10-14")  # the day is empty, and has the keyboard
    line = next(
        f for f in hand.visible(QLineEdit) if f.parent().accessibleName() == "Parameter, line 1"
    )
    yield from hand.click(line)
    yield from hand.enter("Iron", "0.12")
    yield from hand.keep()
    yield lambda: hand.dialog() is None
    told.facts["kept"] = entries(told.books[0]) - before
    told.note("typed")


def _until(condition):
    """To read a page takes eight seconds of a processor, which a busy computer may not have."""
    for _ in range(MINUTES):
        try:
            yield condition
        except TimeoutError:
            continue
        return
    raise TimeoutError(bar().text)


def bar():
    return next(one for one in hand.main_window().findChildren(MessageBar))


def _picture(told, name):
    shown = hand.dialog() or hand.main_window()
    shown.grab().save(str(told.folder / f"{name.replace(' ', '-')}.png"))
    told.note(name)
