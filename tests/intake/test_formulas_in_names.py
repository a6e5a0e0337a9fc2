"""A formula in brackets behind a name is how its figures are counted, if the file bears it out.

The limits are those of Directive (EU) 2020/2184 and of the Trinkwasserverordnung: 50 mg/L nitrate
as NO3, 0.50 mg/L ammonium as NH4; and of the Safe Drinking Water Act: 10 mg/L as N. Counted as N,
31 mg/L is 137 mg/L as NO3 (atomic weights of IUPAC), so a formula alone is asked about.
"""

import pytest

from wellbook import intake


@pytest.fixture
def bases(tmp_path, catalogue):
    """The basis of each result of a table, and whether it is asked about."""

    def read(*lines):
        path = tmp_path / "report.csv"
        path.write_text("\n".join(("Date collected,2026-05-04", *lines)))
        (sample,) = intake.read(path, catalogue).samples
        return {
            result.name: (result.reading.basis, "no_basis" in mark.doubts)
            for result, mark in zip(sample.sample.results, sample.marks, strict=True)
        }

    return read


def test_the_formula_alone_is_asked_about(bases):
    found = bases("Parameter,Result,Unit", "Nitrate (NO3),31,mg/L", "Ammonium (NH4),0.31,mg/L")
    assert set(found.values()) == {("", True)}


def test_a_printed_limit_that_is_set_in_this_form_bears_it_out(bases):
    found = bases(
        "Parameter,Result,Unit,Limit",
        "Nitrate (NO3),31,mg/L,50",
        "Ammonium (NH4),0.31,mg/L,0.50",
        "Nitrite (NO2),0.1,mg/L,",
    )
    assert found == {
        "Nitrate (NO3)": ("as NO3", False),
        "Ammonium (NH4)": ("as NH4", False),
        "Nitrite (NO2)": ("as NO2", False),
    }


def test_a_limit_of_another_form_leaves_it_open(bases):
    found = bases("Parameter,Result,Unit,Limit", "Nitrate (NO3),8,mg/L,10")
    assert found == {"Nitrate (NO3)": ("", True)}


def test_german_names_count_ions(bases):
    found = bases(
        "Parameter,Einheit,Messwert", "Nitrat (NO3),mg/L,31", "Ammonium (NH4),mg/L,0.31",
        "Sulfat (SO4),mg/L,44",
    )  # fmt: skip
    assert found["Nitrat (NO3)"] == ("as NO3", False)
    assert found["Ammonium (NH4)"] == ("as NH4", False)


def test_beside_the_same_counted_as_n_the_formula_is_the_other(bases):
    found = bases("Parameter,Result,Unit", "Nitrate (NO3),31,mg/L", "Nitrate-N,7,mg/L")
    assert found == {"Nitrate (NO3)": ("as NO3", False), "Nitrate-N": ("as N", False)}


@pytest.mark.parametrize(
    "name", ["Nitrate (N)", "Nitrate [N]", "Nitrate (NO3-N)", "Nitrate [NO3-N]"]
)
def test_counted_as_n_is_read_from_any_bracket(bases, name):
    assert bases("Parameter,Result,Unit", f"{name},7,mg/L") == {name: ("as N", False)}
