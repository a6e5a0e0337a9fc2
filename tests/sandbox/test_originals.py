"""Original reports at the end of a packet: whole or left out, never covered."""

import io
import zipfile

import hostile
import household
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, TextStringObject
from reading import everything
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from wellbook.book.rows import NewDocument
from wellbook.packet import packet
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.sandbox import reasons
from wellbook.sharing.attachable import why_behind


def report():
    """Four pages: plain, with a name, with a picture, plain and turned; scripts and links in it."""
    from PIL import Image

    content = io.BytesIO()
    canvas = Canvas(content, (612, 792))
    canvas.setAuthor("Ottoline Vexley")
    canvas.drawString(72, 700, "Larkspur Laboratory 11.4 mg/L")
    canvas.linkURL("https://larkspur.example/login", (72, 690, 200, 710))
    canvas.acroForm.textfield(name="remark", value="for Vexley", x=72, y=500)
    canvas.showPage()
    canvas.drawString(72, 700, "Sampled by O. VEXLEY")
    canvas.showPage()
    canvas.drawString(72, 700, "Scanned sheet")
    canvas.drawImage(ImageReader(Image.new("RGB", (40, 40), "red")), 72, 400)
    canvas.showPage()
    canvas.setPageRotation(90)
    canvas.drawString(72, 300, "Last sheet")
    canvas.save()
    writer = PdfWriter(clone_from=io.BytesIO(content.getvalue()))
    writer.root_object[NameObject("/OpenAction")] = DictionaryObject(
        {
            NameObject("/S"): NameObject("/JavaScript"),
            NameObject("/JS"): TextStringObject("app.alert('hello from Fernbank')"),
        }
    )
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def locked():
    writer = PdfWriter()
    writer.add_blank_page(200, 200)
    writer.encrypt("secret", algorithm="RC4-128")
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


@pytest.fixture(scope="module")
def own(tmp_path_factory):
    with household.furnished(tmp_path_factory.mktemp("own") / "own.wellbook") as book:
        sample = book.samples()[0].id
        for name, content in (
            ("r.pdf", report()), ("locked.pdf", locked()), ("note.txt", b"Called Vexley"),
        ):  # fmt: skip
            book.add_document(NewDocument(name, "application/pdf", content), sample=sample)
        yield book


@pytest.fixture(scope="module")
def appended(own, catalogue, tmp_path_factory):
    folder = tmp_path_factory.mktemp("appended")
    for personal in (False, True):
        packet.write(
            own.record(),
            catalogue,
            folder / f"{personal}.pdf",
            packet.PacketOptions(
                "buyer", with_personal=personal, with_originals=False, append_originals=True
            ),
            today=TODAY,
        )
    return folder


def test_pages_come_at_the_end_each_with_a_stamp_and_a_bookmark(appended, text_of):
    path = appended / "False.pdf"
    pages = [page for page in text_of(path).split("\f") if page.strip()]
    assert "Original 2: lab report, test 1, page 1 of 4" in pages[-4]
    assert "Larkspur Laboratory 11.4 mg/L" in pages[-4]
    assert "Last sheet" in pages[-1]
    titles = [one.title for one in PdfReader(path).outline if not isinstance(one, list)]
    assert titles[-1] == "Original 2: lab report, test 1"


def test_a_page_with_a_private_word_or_a_picture_is_left_out_whole(appended, text_of):
    pages = text_of(appended / "False.pdf").split("\f")
    assert "This page is left out:\nit shows words that are marked as personal." in pages[-4]
    assert "it holds a picture, which can’t be searched for names." in pages[-3]
    held = everything(appended / "False.pdf").lower()
    for word in (b"vexley", b"scanned sheet", b"fernbank", b"app.alert", b"larkspur.example"):
        assert word not in held


def test_with_personal_facts_ticked_every_page_is_shown_without_scripts_and_links(appended):
    text = "\n".join(page.extract_text() for page in PdfReader(appended / "True.pdf").pages)
    for word in ("Sampled by O. VEXLEY", "Scanned sheet", "Last sheet"):
        assert word in text
    held = everything(appended / "True.pdf")
    for word in (b"app.alert", b"/JavaScript", b"larkspur.example", b"/AcroForm"):
        assert word not in held


def test_what_can_t_be_appended_is_listed_with_the_reason(appended, text_of):
    text = text_of(appended / "False.pdf", rows=True)
    assert text.count("not appended: it is damaged or locked") == 2  # the locked, and a torn one
    assert "not appended: it is no PDF" in text


def test_a_packet_with_originals_at_its_end_passes_its_checks(appended):
    for name in ("False.pdf", "True.pdf"):
        assert Outcome.FAILS not in {one.outcome for one in verify(appended / name)}


def test_an_original_that_shows_private_words_stays_behind_and_the_packet_says_why(
    own, catalogue, tmp_path, text_of
):
    path = tmp_path / "p.pdf"
    behind = packet.write(
        own.record(),
        catalogue,
        path,
        packet.PacketOptions("buyer", with_originals=True),
        today=TODAY,
    )
    assert behind == 4
    text = " ".join(text_of(path).split())
    assert text.count("lab report; not attached: it shows words that are marked as personal") == 3
    assert "lab report; not attached: it is damaged or locked" in text
    held = everything(path).lower()
    assert b"vexley" not in held
    assert not [name for name in PdfReader(path).attachments if name.startswith("documents-")]


def test_whoever_hands_on_may_let_every_original_go_along(own, catalogue, tmp_path, text_of):
    path = tmp_path / "p.pdf"
    behind = packet.write(
        own.record(),
        catalogue,
        path,
        packet.PacketOptions(
            "buyer", with_originals=True, all_originals=True, append_originals=True
        ),
        today=TODAY,
    )
    assert behind == 0
    names = [name for name in PdfReader(path).attachments if name.startswith("documents-")]
    assert len(names) == len(own.documents())
    assert "Sampled by O. VEXLEY" in text_of(path)
    assert household.ADDRESS not in text_of(path)  # the household's own facts stay out


def workbook(**cells):
    from openpyxl import Workbook

    made = Workbook()
    for place, text in cells.items():
        made.active[place] = text
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


def packed(**members):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(name.replace("_", "."), content)
    return out.getvalue()


def hidden(place):
    """A PDF whose page shows nothing private, and that holds a private word elsewhere, packed."""
    out = io.BytesIO()
    canvas = Canvas(out, (612, 792), pageCompression=1)
    canvas.drawString(72, 700, "11.4 mg/L")
    canvas.save()
    writer = PdfWriter(clone_from=io.BytesIO(out.getvalue()))
    if place == "property":
        writer.add_metadata({"/Author": "Ottoline Vexley"})
    elif place == "file":
        writer.add_attachment("note.txt", b"for Ottoline Vexley")
    else:
        note = DictionaryObject(
            {
                NameObject("/Subtype"): NameObject("/Text"),
                NameObject("/Contents"): TextStringObject("Vexley"),
            }
        )
        writer.pages[0][NameObject("/Annots")] = ArrayObject([writer._add_object(note)])
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def picture():
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (4, 4), "red").save(out, "PNG")
    return out.getvalue()


DOCUMENTS = {
    "a name": (b"drawn by OTTOLINE vexley", reasons.PRIVATE),
    "two bytes a letter": ("drawn by Vexley".encode("utf-16"), reasons.PRIVATE),
    "blanks in a name": (b"drawn by Vex  ley\n", reasons.PRIVATE),
    "half a name": (b"drawn by Vex", ""),
    "a torn PDF with a name": (b"%PDF-1.4 torn, Vexley", reasons.PRIVATE),
    "a torn PDF": (b"%PDF-1.4 torn", reasons.DAMAGED),
    "a report": (report(), reasons.PRIVATE),
    "a locked PDF": (locked(), reasons.DAMAGED),
    "a property of a PDF": (hidden("property"), reasons.PRIVATE),
    "a file in a PDF": (hidden("file"), reasons.PRIVATE),
    "a remark in a PDF": (hidden("remark"), reasons.PRIVATE),
    "a workbook with a name": (workbook(A1="Client", B1="Ottoline Vexley"), reasons.PRIVATE),
    "a workbook": (workbook(A1="Client", B1="11.4 mg/L"), ""),
    "a name cut by tags": (packed(a_xml="<t>Vex</t><t>ley</t>"), reasons.PRIVATE),
    "a letter as an entity": (packed(a_xml="<t>V&#101;xley</t>"), reasons.PRIVATE),
    "the name of a member": (packed(Vexley_txt="nothing"), reasons.PRIVATE),
    "a picture in a packed file": (packed(a_png="nothing"), reasons.PICTURE),
    "packed twice": (packed(a_zip=packed(b_txt="Vexley")), reasons.UNREADABLE),
    "a torn packed file": (packed(a_txt="Vexley")[:-8], reasons.DAMAGED),
    "a picture": (picture(), reasons.PICTURE),
}


@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_private_word_is_found_wherever_and_however_it_stands(name):
    content, why = DOCUMENTS[name]
    assert why_behind(content, ("Vexley",)) == why
    assert why_behind(content, ()) == ""


def test_a_form_whose_name_means_something_elsewhere_is_drawn_all_the_same(tmp_path, catalogue):
    form = hostile.form(hostile.TEXT, b"/Resources" + hostile.FONT + b"/AA(app.alert)")
    content = hostile.one_page(hostile.stream(b"/AA Do"), b"<</XObject<</AA 5 0 R>>>>", form)
    with household.with_one_test(tmp_path / "b.wellbook") as book:
        document = NewDocument("r.pdf", "application/pdf", content)
        book.add_document(document, well=book.wells()[0].id)
        packet.write(
            book.record(),
            catalogue,
            tmp_path / "p.pdf",
            packet.PacketOptions("buyer", append_originals=True),
            today=TODAY,
        )
    assert "Quiet water 7.2" in PdfReader(tmp_path / "p.pdf").pages[-1].extract_text()
    assert b"app.alert" not in everything(tmp_path / "p.pdf")
