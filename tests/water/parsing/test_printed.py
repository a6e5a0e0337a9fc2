"""How labs print results. The forms are common practice, no source, where none is named."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.water.parsing.printed import format_reading, read_reading
from wellbook.water.values.readings import Flag, Kind, Reading


def said(text, **beside):
    reading = read_reading(text, **beside)
    return reading.kind, reading.number


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("9.2", "9.2"),
        (" 9.20 ", "9.20"),
        ("1,234", "1234"),
        ("1,234,567.8", "1234567.8"),
        ("1\u202f234", "1234"),
        (".5", "0.5"),
        ("1.2E-3", "0.0012"),
        ("1.2 × 10⁻³", "0.0012"),
        ("1.2 x 10^-3", "0.0012"),
        ("5*", "5"),
        ("5 Q", "5"),
        ("= 5", "5"),
        ("-0.1", "-0.1"),
        ("−0.1", "-0.1"),
        ("2.1 ± 0.4", "2.1"),
        ("-0.1 +/- 0.3", "-0.1"),
    ],
)
def test_a_number_is_read_as_printed(text, number):
    reading = read_reading(text)
    assert (reading.kind, str(reading.number)) == (Kind.NUMBER, str(Decimal(number)))
    assert reading.text == text


@pytest.mark.parametrize(
    "text",
    [
        "<0.005",
        "< 0.005",
        "＜0.005",
        "‹0.005",
        "≤0.005",
        "ND (0.005)",
        "ND<0.005",
        "ND @ 0.005",
        "Not detected at 0.005",
        "0.005 U",
        "U 0.005",
        "0.005 ND",
        "< 0.005 U",
        "BDL (RL 0.005)",
        "<0.005 (ND)",
        "N.D. <0.005",
    ],
)
def test_a_nondetect_keeps_the_limit_that_stands_in_it(text):
    assert said(text) == (Kind.BELOW, Decimal("0.005"))


@pytest.mark.parametrize(
    "text",
    [
        "ND",
        "n.d.",
        "N.D.",
        "BDL",
        "BRL",
        "BQL",
        "Not Detected",
        "none detected",
        "non-detect",
        "U",
        "<MDL",
        "< RL",
        "below detection limit",
        "Below Reporting Limit",
    ],
)
def test_a_nondetect_without_a_limit_takes_the_one_in_its_column_or_none(text):
    assert said(text) == (Kind.BELOW, None)
    assert said(text, limit="0.5") == (Kind.BELOW, Decimal("0.5"))
    assert said(text, limit="see note") == (Kind.BELOW, None)
    assert said(text, limit="0") == (Kind.BELOW, None)


@pytest.mark.parametrize("qualifier", ["U", "ND", "<", "BDL", "not detected"])
def test_a_qualifier_column_can_make_a_number_a_nondetect(qualifier):
    assert said("0.005", qualifier=qualifier) == (Kind.BELOW, Decimal("0.005"))


def test_an_empty_result_with_a_qualifier_is_a_nondetect_and_without_one_is_missing():
    assert said("", qualifier="U", limit="2") == (Kind.BELOW, Decimal(2))
    assert said("", limit="2") == (Kind.NONE, None)


def test_a_zero_beside_a_nondetect_flag_is_not_its_limit():
    assert said("0 U") == (Kind.BELOW, None)
    assert said("0", qualifier="U", limit="5") == (Kind.BELOW, Decimal(5))


@pytest.mark.parametrize(
    ("text", "number"),
    [(">2419.6", "2419.6"), ("≥16", "16"), (">= 16", "16"), ("> 23", "23"), ("＞200.5", "200.5")],
)
def test_off_scale_keeps_its_bound(text, number):
    assert said(text) == (Kind.ABOVE, Decimal(number))


@pytest.mark.parametrize(
    "text", ["TNTC", "Too Numerous To Count", "confluent", "Confluent growth", "heavy background"]
)
def test_an_overgrown_plate_is_off_scale_without_a_number(text):
    reading = read_reading(text, unit="CFU/100 mL")
    assert (reading.kind, reading.number) == (Kind.ABOVE, None)
    assert Flag.OVERGROWN in reading.flags


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("confluent growth with coliform", Kind.PRESENT),
        ("TNTC, coliform present", Kind.PRESENT),
        ("confluent growth without coliform", Kind.ABOVE),
        ("TNTC - no coliform", Kind.ABOVE),
        ("confluent, coliform absent", Kind.ABOVE),
        ("confluent, coliforms not detected", Kind.ABOVE),
        ("TNTC, coliform not present", Kind.ABOVE),
    ],
)
def test_an_overgrown_plate_is_present_only_if_the_lab_saw_coliform(text, kind):
    reading = read_reading(text)
    assert reading.kind is kind
    assert Flag.OVERGROWN in reading.flags


def test_too_numerous_with_a_figure_keeps_the_figure():
    reading = read_reading("> 200 TNTC")
    assert (reading.kind, reading.number) == (Kind.ABOVE, Decimal(200))
    assert Flag.OVERGROWN in reading.flags


@pytest.mark.parametrize("text", ["present", "Positive", "POS", "detected", "Present/100 mL"])
def test_words_for_presence(text):
    assert said(text) == (Kind.PRESENT, None)


@pytest.mark.parametrize("text", ["absent", "Neg", "negative", "absent/100 mL", "Absent per 100mL"])
def test_words_for_absence(text):
    assert said(text) == (Kind.ABSENT, None)


@pytest.mark.parametrize(("text", "kind"), [("A", Kind.ABSENT), ("P", Kind.PRESENT)])
@pytest.mark.parametrize("unit", ["P/A", "present/absent", "MPN/100 mL"])
def test_single_letters_are_words_only_in_a_column_for_presence(text, kind, unit):
    assert said(text, unit=unit) == (kind, None)
    assert said(text) == (Kind.TEXT, None)
    assert said(text, unit="mg/L") == (Kind.TEXT, None)


@pytest.mark.parametrize(("text", "kind"), [("+", Kind.PRESENT), ("-", Kind.ABSENT)])
def test_a_sign_alone_is_a_word_only_in_a_column_for_presence(text, kind):
    assert said(text, unit="P/A") == (kind, None)
    assert said(text) == (Kind.TEXT, None)


def test_not_detected_in_a_column_of_counts_still_has_a_reporting_limit():
    assert said("ND", unit="CFU/100 mL", limit="10") == (Kind.BELOW, Decimal(10))
    assert said("ND", unit="P/A", limit="1") == (Kind.ABSENT, None)


@pytest.mark.parametrize(
    "text",
    [
        "N/A",
        "NA",
        "NT",
        "not tested",
        "Not analyzed",
        "pending",
        "lab accident",
        "bottle broken",
        "insufficient sample",
    ],
)
def test_no_test_is_missing_and_never_a_nondetect(text):
    assert said(text, limit="0.5") == (Kind.NONE, None)


@pytest.mark.parametrize(
    "text",
    [
        "5 - 10",
        "hello",
        "--",
        "1 234",
        "5 of 5",
        "0,5",
        "1.2.3",
        "12,34",
        "<",
        "5E999",
        "9**9**9",
        "see report",
        "5 furlongs",
        "<5 >3",
        ">5 U",
        "1,23,456",
        "satisfactory",
    ],
)
def test_what_is_not_understood_stays_text(text):
    assert said(text) == (Kind.TEXT, None)
    assert read_reading(text).text == text


@pytest.mark.parametrize(
    ("text", "number"),
    [("0,5", "0.5"), ("1.234,5", "1234.5"), ("1.234", "1234"), ("<0,05", "0.05"), ("12", "12")],
)
def test_a_decimal_comma_is_read_where_the_sheet_writes_one(text, number):
    assert read_reading(text, decimal_comma=True).number == Decimal(number)


def test_a_decimal_point_on_a_sheet_with_commas_is_asked_about():
    assert said("0.5", decimal_comma=True) == (Kind.TEXT, None)


@pytest.mark.parametrize(
    ("text", "flags"),
    [
        ("0.12 J", {Flag.ESTIMATED}),
        ("0.12J", {Flag.ESTIMATED}),
        ("0.12 H,B", {Flag.HELD_TOO_LONG, Flag.IN_BLANK}),
        ("0.12 JB", {Flag.ESTIMATED, Flag.IN_BLANK}),
        ("0.12 D", {Flag.DILUTED}),
        ("0.12 D H", {Flag.DILUTED, Flag.HELD_TOO_LONG}),
        ("0.12 E", {Flag.OVER_RANGE}),
        ("0.12 R", {Flag.REJECTED}),
        ("0.12 DUP", {Flag.DUPLICATE}),
        ("~0.12", {Flag.ESTIMATED}),
        ("0.12 DE", set()),
        ("0.12 Q", set()),
    ],
)
def test_flag_letters_carry_their_usual_meaning(text, flags):
    reading = read_reading(text)
    assert (reading.kind, reading.number) == (Kind.NUMBER, Decimal("0.12"))
    assert reading.flags == flags


def test_uj_is_a_nondetect_with_an_uncertain_limit():
    reading = read_reading("0.5 UJ")
    assert (reading.kind, reading.number, reading.flags) == (
        Kind.BELOW,
        Decimal("0.5"),
        {Flag.ESTIMATED},
    )


@pytest.mark.parametrize("qualifier", ["H", "HT", "holding time exceeded", "J, H"])
def test_flags_in_their_own_column_count_too(qualifier):
    assert Flag.HELD_TOO_LONG in read_reading("absent", qualifier=qualifier).flags


@pytest.mark.parametrize(
    ("text", "beside", "unit", "basis"),
    [
        ("7.2 SU", "", "SU", ""),
        ("7.2SU", "", "SU", ""),
        ("0.005 mg/L", "", "mg/L", ""),
        ("0.005 mg/L", "mg/l", "mg/l", ""),
        ("10 mg/L as N", "", "mg/L as N", "as N"),
        ("10", "mg/L as NO3", "mg/L as NO3", "as NO3"),
        ("<1 MPN/100 mL", "per 100 mL", "per 100 mL", ""),
        ("12 °C", "", "°C", ""),
        ("20", "gpg", "gpg", ""),
    ],
)
def test_a_unit_inside_the_result_is_taken_where_its_column_has_none(text, beside, unit, basis):
    reading = read_reading(text, unit=beside)
    assert reading.number is not None
    assert (reading.unit, reading.basis) == (unit, basis)


def test_a_unit_inside_the_result_that_contradicts_its_column_is_asked_about():
    assert said("5 mg/L", unit="ug/L") == (Kind.TEXT, None)


def test_a_limit_column_in_another_unit_is_not_taken():
    assert said("ND", unit="ug/L", limit="0.002 mg/L") == (Kind.BELOW, None)
    assert read_reading("ND", limit="0.002 mg/L").unit == "mg/L"


@pytest.mark.parametrize(
    ("printed", "fraction"),
    [
        ("Total", "total"),
        ("Total Recoverable", "total"),
        ("Unfiltered", "total"),
        ("Dissolved", "dissolved"),
        ("Filtered field and/or lab", "dissolved"),
        ("", ""),
    ],
)
def test_fractions_have_our_words(printed, fraction):
    assert read_reading("5", fraction=printed).fraction == fraction


@pytest.mark.parametrize("basis", ["as N", "N", "(as N)", "as Nitrogen", "NO3-N"])
def test_a_basis_has_our_spelling(basis):
    assert read_reading("5", basis=basis).basis == "as N"


@pytest.mark.parametrize(
    ("text", "beside", "kind", "flags"),
    [
        ("5", {"qualifier": "< J"}, Kind.BELOW, {Flag.ESTIMATED}),
        ("5", {"qualifier": "> J"}, Kind.ABOVE, {Flag.ESTIMATED}),
        ("ca. 5", {}, Kind.NUMBER, {Flag.ESTIMATED}),
        ("about 5", {}, Kind.NUMBER, {Flag.ESTIMATED}),
        ("~5", {}, Kind.NUMBER, {Flag.ESTIMATED}),
        ("= 5", {}, Kind.NUMBER, set()),
        ("U 0.005 J", {}, Kind.BELOW, {Flag.ESTIMATED}),
        ("ND 0.005", {}, Kind.BELOW, set()),
        ("", {"qualifier": "J"}, Kind.NONE, {Flag.ESTIMATED}),
        ("", {"qualifier": "TNTC"}, Kind.ABOVE, {Flag.OVERGROWN}),
        ("", {"qualifier": "confluent growth with coliform"}, Kind.PRESENT, {Flag.OVERGROWN}),
    ],
)
def test_signs_and_flags_count_wherever_they_stand(text, beside, kind, flags):
    reading = read_reading(text, **beside)
    assert (reading.kind, reading.flags) == (kind, flags)


@pytest.mark.parametrize(
    ("text", "unit", "flags"),
    [
        ("5 J mg/L", "mg/L", {Flag.ESTIMATED}),
        ("5 mg/L J", "mg/L", {Flag.ESTIMATED}),
        ("5 (mg/L)", "mg/L", set()),
        ("12 c", "c", set()),
        ("50 f", "f", set()),
        ("5 %", "%", set()),
    ],
)
def test_a_unit_may_stand_before_or_behind_the_flags(text, unit, flags):
    reading = read_reading(text)
    assert (reading.kind, reading.unit, reading.flags) == (Kind.NUMBER, unit, flags)


@pytest.mark.parametrize("text", ["5 J hello", "5 hello J", "5 -", "300 k", "5 t", "9" * 41])
def test_what_is_not_wholly_understood_stays_text(text):
    reading = read_reading(text)
    assert (reading.kind, reading.number, reading.text) == (Kind.TEXT, None, text)


def test_forty_digits_are_still_a_number():
    assert read_reading("9" * 40).number == Decimal("9" * 40)


def test_a_count_in_a_column_for_presence_stays_a_count():
    reading = read_reading("5 CFU/100 mL", unit="P/A")
    assert (reading.kind, reading.number) == (Kind.NUMBER, 5)


def test_every_detection_condition_of_the_exchange_format_is_understood():
    """The names are WQX's result detection conditions (allowed values of the open format)."""
    undetected = (
        "Not Detected",
        "Not Detected at Detection Limit",
        "Not Detected at Reporting Limit",
        "Below Daily Detection Limit",
        "Below Detection Limit",
        "Below Long-term Blank-basd Dt Limit",
        "Below Method Detection Limit",
        "Below Reporting Limit",
        "Below Sample-specific Detect Limit",
        "Below System Detection Limit",
    )
    assert {said("", qualifier=text, limit="0.5") for text in undetected} == {
        (Kind.BELOW, Decimal("0.5"))
    }
    assert said("Not Present") == (Kind.ABSENT, None)
    assert said("Not Reported") == (Kind.NONE, None)
    assert said("Above Operating Range") == (Kind.ABOVE, None)
    below_quantitation = "Present Below Quantification Limit", "Trace", "Detected Not Quantified"
    for text in below_quantitation:
        assert said(text) == (Kind.PRESENT, None)
        assert Flag.ESTIMATED in read_reading(text).flags


_NUMBERS = st.decimals(
    min_value=0, max_value=10**9, allow_nan=False, allow_infinity=False, places=6
).map(Decimal.normalize)
_PRINTED = set(Flag) - {Flag.PRELIMINARY}  # that is ours: a lab tells it by telephone
_FLAGS = st.frozensets(st.sampled_from(sorted(_PRINTED)), max_size=3)
_UNITS = st.sampled_from(["", "mg/L", "µg/L", "CFU/100 mL", "pH units", "P/A"])


@st.composite
def _readings(draw):
    kind = draw(st.sampled_from([k for k in Kind if k is not Kind.TEXT]))
    number = None
    if kind is Kind.NUMBER or (kind in {Kind.BELOW, Kind.ABOVE} and draw(st.booleans())):
        number = draw(_NUMBERS)
        if kind is Kind.BELOW and number == 0:
            number = Decimal(1)
    return Reading(text="", kind=kind, number=number, unit=draw(_UNITS), flags=draw(_FLAGS))


@given(_readings())
def test_what_is_written_is_read_back(reading):
    again = read_reading(format_reading(reading), unit=reading.unit)
    assert replace(again, text="") == reading


@given(st.text(max_size=40), st.text(max_size=10), st.text(max_size=6), st.booleans())
def test_any_text_at_all_is_read_without_a_fault(text, unit, qualifier, comma):
    reading = read_reading(text, unit=unit, qualifier=qualifier, limit=text, decimal_comma=comma)
    assert reading.text == text
    assert isinstance(format_reading(reading), str)


@given(st.text(alphabet="<>≤0123456789.,eE-+ xNDUJ()/%±", max_size=20), st.booleans())
def test_any_jumble_of_the_usual_signs_is_read_without_a_fault(text, comma):
    reading = read_reading(text, decimal_comma=comma)
    assert reading.kind in set(Kind)
    if reading.number is not None:
        assert len(f"{reading.number:f}") < 160


def test_reading_a_page_of_ordinary_text_finds_no_figure():
    words = [
        "The",
        "sample",
        "was",
        "received",
        "in",
        "good",
        "order",
        "and",
        "analysed",
        "as",
        "requested",
    ]
    assert {said(word)[0] for word in words} == {Kind.TEXT}


@pytest.mark.parametrize(
    "text", ["ND (2) mg/L", "ND (2 mg/L)", "nd (<2) mg/L", "Not detected (2) mg/L J"]
)
def test_a_unit_stands_in_the_bracket_of_the_limit_or_behind_it(text):
    reading = read_reading(text)
    assert (reading.kind, reading.number, reading.unit) == (Kind.BELOW, Decimal(2), "mg/L")


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("2,3 µg/l", "µg/l"),
        ("2.3 \u03bcg/L J", "\u03bcg/L"),
        ("455  µS/cm", "µS/cm"),
        ("12 mg/L (as NO₃)", "mg/L (as NO₃)"),
        ("18 °dH", "°dH"),
        ("absent/100ml", "/100 mL"),
    ],
)
def test_a_unit_behind_a_figure_stays_as_printed(text, unit):
    assert read_reading(text, decimal_comma="," in text).unit == unit
