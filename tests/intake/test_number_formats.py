"""Numbers under a format, as ECMA-376 part 1, 18.8.31 says they show."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.intake.files.number_formats import plain, shown


@pytest.mark.parametrize(
    ("number", "code", "text"),
    [
        (0.005, '"<"0.000', "<0.005"),
        (0.005, "\\<0.000", "<0.005"),
        (0.005, "<0.000", "<0.005"),
        (1.5, "0.00", "1.50"),
        (1234.5, "#,##0.00", "1234.50"),
        (5, "0.0##", "5.0"),
        (0.5, "#.##", ".5"),
        (12, '0.0" mg/L"', "12.0 mg/L"),
        (0.002, '[<0.005]"<0.005";0.000', "<0.005"),
        (0.02, '[<0.005]"<0.005";0.000', "0.020"),
        (0, '0.0;-0.0;"ND"', "ND"),
        (-3.2, "0.0", "-3.2"),
        (123456, "0.00E+00", "1.23E+05"),
        (999999, "0.00E+00", "1.00E+06"),
    ],
)
def test_a_number_is_shown_as_its_format_says(number, code, text):
    assert shown(number, code) == text


@pytest.mark.parametrize("code", ["General", "@", "0%", "# ?/?", "yyyy-mm-dd", ""])
def test_a_format_of_another_kind_leaves_the_number_plain(code):
    assert shown(7.125, code) == "7.125"


def test_a_format_too_coarse_to_show_the_number_leaves_it_plain():
    assert shown(0.004, "0.00") == "0.004"


@pytest.mark.parametrize(
    ("number", "text"),
    [(0.1 + 0.2, "0.3"), (1e-7, "0.0000001"), (5.0, "5"), (0.005, "0.005"), (1e15, "1" + "0" * 15)],
)
def test_a_plain_number_has_no_exponent_and_no_dust(number, text):
    assert plain(number) == text


@given(st.decimals(0, 10**6, places=4), st.integers(0, 4))
def test_a_fixed_format_rounds_as_decimals_do_and_keeps_its_digits(value, places):
    text = shown(float(value), "0." + "0" * places if places else "0")
    assert abs(Decimal(text) - value) <= Decimal(5).scaleb(-places - 1)
    if value >= 1:
        assert len(text.partition(".")[2]) == places


FORMATS = st.text('0#?.,;[]<>="\\E+-%@ aA', max_size=20)


@given(st.floats(allow_nan=False, allow_infinity=False), FORMATS)
def test_no_format_whatever_breaks_the_reading(number, code):
    assert isinstance(shown(number, code), str)
