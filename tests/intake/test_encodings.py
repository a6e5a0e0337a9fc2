"""Text in the encodings that labs' programs write."""

import codecs

import pytest
from drafts import TODAY

from wellbook import intake
from wellbook.support.errors import Fault

TABLE = "Analyte;Result;Units;Collected\nManganèse;12;µg/L;2024-05-13\nIron;0.2;mg/L;2024-05-13\n"


@pytest.mark.parametrize(
    "content",
    [
        TABLE.encode("utf-8"),
        TABLE.encode("utf-8-sig"),
        TABLE.encode("cp1252"),
        TABLE.encode("utf-16"),
        codecs.BOM_UTF16_BE + TABLE.encode("utf-16-be"),
        TABLE.encode("utf-16-le"),
        TABLE.encode("utf-16-be"),
        TABLE.replace("\n", "\r\n").encode("cp1252"),
        TABLE.replace("\n", "\r").encode("utf-8"),
        ("sep=;\r\n" + TABLE).encode("utf-8"),
    ],
)
def test_every_encoding_and_line_end_gives_the_same_text(results_of, content):
    found = results_of(content)
    assert list(found) == ["Manganèse", "Iron"]
    assert found["Manganèse"].reading.unit == "µg/L"


@pytest.mark.parametrize("mark", [",", ";", "\t", "|"])
def test_every_separator_is_found(results_of, mark):
    assert "Iron" in results_of(TABLE.replace(";", mark))


def test_a_table_may_be_pasted(catalogue):
    draft = intake.read_pasted(TABLE.replace(";", "\t"), catalogue, today=TODAY)
    (sample,) = draft.samples
    assert [r.name for r in sample.sample.results] == ["Manganèse", "Iron"]
    assert sample.sample.documents[0].content.decode().startswith("Analyte\tResult")


def test_nothing_pasted_is_said(catalogue):
    with pytest.raises(Fault, match="Nothing was pasted"):
        intake.read_pasted(" \n", catalogue)
