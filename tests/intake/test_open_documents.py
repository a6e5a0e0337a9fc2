"""Texts of office programs (OASIS OpenDocument 1.3): tables, paragraphs, lists, what is struck."""

import io
import zipfile

import pytest

from wellbook.support.errors import Fault

SPACES = " ".join(
    f'xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
    for name in ("office", "table", "text", "style")
)
HEAD = ("Qué", "Cuánto", "Unidad")
ROWS = (("Nitratos", "44", "mg/l NO3"), ("Cloruros", "61", "mg/l"), ("Dureza", "32", "ºf"))


def odt(body, styles="", mimetype="application/vnd.oasis.opendocument.text"):
    text = (
        f"<office:document-content {SPACES}><office:automatic-styles>{styles}"
        f"</office:automatic-styles><office:body><office:text>{body}</office:text></office:body>"
        "</office:document-content>"
    )
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as parts:
        parts.writestr("mimetype", mimetype)
        parts.writestr("content.xml", text)
    return stream.getvalue()


def paragraph(text, tag="p"):
    return f"<text:{tag}>{text}</text:{tag}>"


def table(rows):
    def cell(text):
        return f"<table:table-cell>{paragraph(text)}</table:table-cell>"

    lines = (f"<table:table-row>{''.join(map(cell, row))}</table:table-row>" for row in rows)
    return f"<table:table>{''.join(lines)}</table:table>"


DAY = paragraph("Muestra tomada el 9 de abril de 2024 en el grifo del patio.")


def found(draft):
    (sample,) = draft.samples
    assert sample.sample.collected.iso() == "2024-04-09"
    return [(r.parameter, r.reading.text, r.reading.unit) for r in sample.sample.results]


def test_a_table_below_a_sentence_with_its_day(draft_of):
    draft = draft_of(odt(paragraph("Pozo", "h") + DAY + table((HEAD, *ROWS))), "pozo.odt")
    assert found(draft) == [
        ("nitrate", "44", "mg/l NO3"),
        ("chloride", "61", "mg/l"),
        ("hardness", "32", "ºf"),
    ]
    assert all(mark.is_certain for mark in draft.samples[0].marks)


def test_lines_of_a_list_with_blanks_of_their_own(draft_of):
    items = "".join(
        f"<text:list-item>{paragraph(one)}</text:list-item>"
        for one in ("Hierro:<text:s/>0,3<text:s/>mg/l", "Cloruros:<text:s text:c='2'/>61 mg/l")
    )
    draft = draft_of(odt(f"{DAY}<text:list>{items}</text:list>"), "lista.odt")
    assert [one[0] for one in found(draft)] == ["iron", "chloride"]


def test_what_a_tracked_change_has_taken_out_is_not_read_and_what_is_struck_is_asked(draft_of):
    style = (
        '<style:style style:name="T1" style:family="text"><style:text-properties '
        'style:text-line-through-style="solid"/></style:style>'
    )
    gone = f"<text:tracked-changes>{paragraph('Hierro: 9 mg/l')}</text:tracked-changes>"
    struck = ("Cloruros", '<text:span text:style-name="T1">61</text:span>', "mg/l")
    draft = draft_of(odt(gone + DAY + table((HEAD, ROWS[0], struck)), style), "a.odt")
    assert [one[:2] for one in found(draft)] == [("nitrate", "44"), ("chloride", "61")]
    assert [mark.is_certain for mark in draft.samples[0].marks] == [True, False]


@pytest.mark.parametrize("body", ["<text:p>", "<text:list>" * 3_000 + "</text:list>" * 3_000])
def test_a_damaged_or_bottomless_text_gets_one_clear_line(draft_of, body):
    with pytest.raises(Fault, match=r"a\.odt (is damaged|is not a table)"):
        draft_of(odt(body), "a.odt")
