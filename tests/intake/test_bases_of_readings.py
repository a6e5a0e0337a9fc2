"""The form in which a reading is counted belongs to it alone. Common practice, no source."""

import pytest


def bases_of(draft):
    """Basis and unit of each reading, by its parameter."""
    return {
        r.parameter: (r.reading.basis, r.reading.unit)
        for one in draft.samples for r in one.sample.results
    }  # fmt: skip


LETTER = "Dear owner,\nthe sample taken on March 21, 2023 at the tap gave:\n"


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ("Nitrate was 1.28 mg/L as N.\nIron, Total was 0.04 mg/L.", {"nitrate": "as N"}),
        ("Nitrate was 1.28 mg/L as N, nitrite 0.04 mg/L.", {"nitrate": "as N"}),
        ("Nitrate 6 mg/L as NO3 and nitrite 0.04 mg/L as N.", {"nitrite": "as N"}),
        ("Silica was 9 mg/L as SiO2; iron 0.3 mg/L.", {"silica": "as SiO2"}),
        ("Nitrates 4 mg/L (en NO3) ; Ammonium 0,3 mg/L.", {}),
    ],
)
def test_the_basis_of_a_figure_in_a_sentence_is_none_of_the_next(draft_of, told, expected):
    draft = draft_of(f"{LETTER}{told}\n", "letter.txt")
    found = bases_of(draft)
    assert len(found) == 2
    assert {key: found[key][0] for key in expected} == expected
    last = draft.samples[0].sample.results[-1]
    assert last.reading.basis == expected.get(last.parameter, "")
    assert not last.name.startswith(("as ", "NO3"))
