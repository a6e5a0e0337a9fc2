"""What is not printed stays empty."""

from datetime import date

from wellbook.water.cautions.advice import Advice
from wellbook.water.cautions.cautions import Caution
from wellbook.water.statistics.series import Series
from wellbook.water.units.spellings import Unit
from wellbook.water.values.findings import Finding
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result


def test_a_result_says_nothing_that_was_not_printed():
    reading = Reading("5", Kind.NUMBER)
    one = Result(1, 1, "nitrate", "Nitrate", reading, LocalTime(date(2024, 5, 1)), 1)
    words = (one.method, one.reporting_limit, one.detection_limit, one.qualifier, one.lab, one.draw)
    assert words == ("",) * 6
    assert (reading.number, reading.unit, reading.basis, reading.fraction) == (None, "", "", "")
    assert (one.analysed, reading.flags) == (None, frozenset())


def test_a_caution_and_an_advice_are_not_urgent_unless_said():
    caution = Caution("x")
    assert (caution.over, caution.found, caution.boil, caution.boil_text) == ("",) * 4
    assert (caution.special, caution.urgent, caution.source) == ({}, False, "")
    advice = Advice((), ())
    assert (advice.urgent, advice.source, advice.text) == (False, "", "")


def test_a_finding_names_no_place_and_no_rows_unless_said():
    finding = Finding("x", "Look again.")
    assert (finding.where, finding.severity, finding.results) == ("", "ask", ())


def test_nothing_is_left_out_and_no_basis_carried_unless_said():
    assert Series((), ()).left_out == 0
    assert Unit("mg/L", "mass concentration").basis == ""
