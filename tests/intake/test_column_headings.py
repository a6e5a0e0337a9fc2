"""What common headings say: common practice, no source."""

import pytest

from wellbook.intake.words.asides import LIMIT, aside
from wellbook.intake.words.headings import role_of, unit_in
from wellbook.intake.words.roles import Role
from wellbook.water.values.readings import Kind


@pytest.mark.parametrize(
    ("role", "headings"),
    [
        (Role.NAME, "Analyte|Parameter|Test|Contaminant|Parameter Name|Chemical Name|Constituents"),
        (Role.RESULT, "Result|Results|Result (mg/L)|Value|Conc.|Your Result|Result Value|Found"),
        (Role.UNIT, "Unit|Units|UOM|result_unit|ResultUnits"),
        (Role.DATE, "Sample Date|Date Collected|Collected|sampleDate|Date/Time Sampled|Sampled On"),
        (Role.TIME, "Time|Time Collected|Sample Time|Time of Collection"),
        (Role.RECEIVED, "Received|Date Received|Received at lab|Receipt Date"),
        (Role.ANALYSED, "Analyzed|Date Analysed|Analysis Date|Test Date"),
        (Role.REPORTED, "Report Date|Date Reported|Reported"),
        (Role.REPORTING_LIMIT, "RL|MRL|PQL (mg/L)|Reporting Limit|LOQ|Quantitation Limit"),
        (Role.DETECTION_LIMIT, "MDL|LOD|Detection Limit|Method Detection Limit"),
        (Role.METHOD, "Method|Analytical Method|Method No."),
        (Role.QUALIFIER, "Flag|Qual|Qualifier|Q|Result Qualifier"),
        (Role.NUMBER, "Lab Sample ID|Lab #|Sample ID|Sample No.|Lab Number"),
        (Role.CLIENT_NUMBER, "Client Sample ID|Sample Name|Field ID"),
        (Role.POINT, "Location|Sampling Point|Sample Location|Site|Tap"),
        (Role.LAB, "Lab|Laboratory|Lab Name|Performing Lab"),
        (Role.CAS, "CAS|CAS#|CAS No.|CASRN|CAS Number"),
        (Role.FRACTION, "Fraction|Sample Fraction"),
        (Role.SAMPLER, "Sampled By|Collected by|Sampler"),
        (Role.TEMPERATURE, "Temp on receipt|Received Temp|Cooler Temperature"),
        (Role.NOTHING, "MCL|EPA Limit|Limit|SMCL|Max. Allowed|Pass/Fail|Prep Date|Dilution Factor"),
    ],
)
def test_headings_that_labs_use(role, headings):
    assert {heading: role_of(heading) for heading in headings.split("|")} == dict.fromkeys(
        headings.split("|"), role
    )


@pytest.mark.parametrize("text", ["Kitchen tap", "Iron", "Nitrate as N", "2.1", "", "mg/L"])
def test_what_stands_in_a_table_is_no_heading(text):
    assert role_of(text) is None


def test_a_sentence_is_no_heading():
    assert role_of("Results relate only to the items tested and to the sample as received") is None


@pytest.mark.parametrize(
    ("heading", "unit"), [("Result (mg/L)", "mg/L"), ("Result, µg/L", "µg/L"), ("Result", "")]
)
def test_a_heading_may_carry_the_unit(heading, unit):
    assert unit_in(heading) == unit


def test_a_report_of_radioactivity_heads_its_results_activity(draft_of):
    """As radiochemists head them, with the minimum detectable concentration. Common practice."""
    draft = draft_of(
        "Collected,19-Apr-2019\n\nNuclide,Activity,Uncertainty (2 sigma),MDC,Units,MCL\n"
        "Gross Alpha,16.5,2.0,0.8,pCi/L,15\nRadium-226,<0.2,0.3,0.2,pCi/L,\n"
    )
    (sample,) = draft.samples
    assert [(r.parameter, r.reading.text, r.detection_limit) for r in sample.sample.results] == [
        ("gross_alpha", "16.5", "0.8"),
        ("radium_226", "<0.2", "0.2"),
    ]


@pytest.mark.parametrize(("said", "is_certain"), [("JP", True), ("LT", True), ("LX?", False)])
def test_a_column_of_operators_may_hold_initials(draft_of, said, is_certain):
    (sample,) = draft_of(
        f"Collected,2025-05-23\n\nParameter,Result,Units,Operator\nIron,0.3,mg/L,{said}\n"
        f"Lead,2,ug/L,{said}\n"
    ).samples
    assert {mark.is_certain for mark in sample.marks} == {is_certain}
    assert {r.reading.kind is Kind.BELOW for r in sample.sample.results} == {said == "LT"}


def test_words_for_the_collecting_of_a_sample_in_latin_america_and_of_stages():
    assert role_of("Fecha de recolección") is Role.DATE
    assert role_of("Punto de recolección") is Role.POINT
    assert role_of("Before unit") is None
    assert role_of("Units") is Role.UNIT


@pytest.mark.parametrize("name", ["SANS 241", "IS 10500", "NOM-127-SSA1", "NCh 409/1", "ADWG"])
def test_the_name_of_a_standard_of_drinking_water_is_over_limits(name):
    """Titles of the standards of South Africa, India, Mexico, Chile and Australia."""
    assert aside(name) == LIMIT
