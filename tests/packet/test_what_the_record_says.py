"""What stands in the record behind the answers, cell by cell, as it is set; nothing is written."""

from dataclasses import replace

import household
import pytest
from packet_fixtures import TODAY
from reportlab.platypus import KeepTogether
from test_what_the_pages_say import prose, renamed, tables, words

from wellbook.book.rows import Document, Event, Lab, Service, TreatmentUnit
from wellbook.packet import packet
from wellbook.packet.options import AUDIENCES
from wellbook.packet.pages import (
    at_a_glance,
    charts,
    closing,
    originals,
    origins,
    readings,
    results,
    sizing,
    trends,
    wells,
)
from wellbook.pdf import style
from wellbook.sandbox.originals import Original
from wellbook.sharing.sources import LeftBehind, MissingOriginal, Source
from wellbook.support import paths


@pytest.fixture(scope="module")
def contexts(book, catalogue):
    style.register_fonts(paths.resources() / "fonts")
    return {
        audience: packet.gathered(book.record(), catalogue, TODAY, packet.PacketOptions(audience))
        for audience in AUDIENCES
    }


@pytest.fixture
def context(contexts):
    return replace(contexts["buyer"], limits={})


def changed(context, **more):
    return replace(context, history=replace(context.history, **more))


def of_well(context, **more):
    (facts,) = context.history.wells
    return changed(context, wells=(replace(facts, **more),))


BEFORE = "Before treatment. Drawn by owner. Lab: Larkspur Laboratory."


def test_each_test_says_where_when_and_by_whom_then_each_reading_with_both_verdicts(context):
    heads, kept = [], []
    for test in words(results.tests(context))[2:]:
        heads.append(test[:2])
        kept.append(test[2:])
    assert heads == [
        ["Test 1: 3 May 2004, Pressure tank",
         f"{BEFORE} Note: Drawn by [covered: personal] after a week of rain."],
        ["Test 2: 12 Sep 2012, 07:15 (UTC−4:00), Pressure tank",
         BEFORE],
        ["Test 3: 2 May 2019, 06:40, Pressure tank",
         f"{BEFORE.replace('Lab', 'Purpose: after an event. Lab', 1)} Originals: 1 document."],
        ["Test 4: 2 May 2019, 06:50, Kitchen tap",
         'After treatment. Drawn by owner. Lab: Larkspur Laboratory. Note: =HYPERLINK("x","y").'],
    ]  # fmt: skip
    (first,) = kept[0]
    # Arsenic: 50 µg/L on that day, 10 µg/L since 2006 (40 CFR 141.62).
    assert first[0][0] == "Test 1: as printed"
    assert first[1:] == [
        ["Nitrate (as NO3)", "31.9 mg/L as NO3", "", "300.0", "within", "within", "[1]"],
        ["Arsenic", "0.030 mg/L", "", "EPA 200.8", "within", "over", "[2] [3]"],
        ["Coliform, total", "absent per 100 mL", "", "", "not detected", "not detected", "[4] [5]"],
        ["Iron", "0.24 mg/L total", "", "", "within", "within", "[6]"],
    ]
    remarks, table = kept[1][:-1], kept[1][-1]
    assert remarks[0].startswith("Arsenic: Not found, but the lab could see it only from 0.05 mg/L")
    assert table[1] == ["Nitrate-N", "8.6 mg/L as N (J)", "", "", "close", "close", "[1]"]
    assert table[4] == ["Unobtainium", "3.3 mg/L", "", "", "no limit", "no limit", "–"]


def test_a_reading_names_its_own_lab_and_a_test_without_readings_says_so(context):
    first = context.history.tests[0]
    one = replace(first.results[1], result=replace(first.results[1].result, lab="Hollin Labs"))
    test = replace(first, results=(one,))
    assert words(results.one_test(context, test))[0][-1][1][3] == "EPA 200.8 (Hollin Labs)"
    assert words(results.one_test(context, replace(first, results=())))[-1] == (
        "No readings were entered."
    )
    assert prose(results.tests(changed(context, tests=())))[-1] == "None yet."


def test_limits_that_verdicts_rest_on_are_listed_by_their_numbers_with_days_in_force(context):
    results.tests(context)
    (rows,) = tables(closing.limits(context))
    assert [row[:2] for row in rows[:3]] == [["[1]", "Nitrate"], ["[2]", "Arsenic"],
                                             ["[3]", "Arsenic"]]  # fmt: skip
    assert [row[2] for row in rows[:3]] == [
        "up to 10 mg/L as N",
        "up to 0.05 mg/L, total",
        "up to 0.010 mg/L, total",
    ]
    assert [row[4] for row in rows[1:3]] == ["24 Jun 1977 to 22 Jan 2006", "since 23 Jan 2006"]
    assert len(rows) == len(context.limits)


def test_units_are_told_with_their_time_and_services_by_day(context):
    units = (
        TreatmentUnit(1, 1, "Softener", "ion exchange", 1, "2015-04", "2020", "hardness oddity"),
        TreatmentUnit(2, 1, "Lamp", "ultraviolet lamp", 2),
    )
    services = (
        Service(2, 2, "2021-03", "lamp", meter="200 h"),
        Service(1, 1, "2019-01", "bypass", "2019-02", "broken"),
    )
    said = tables(wells.wells(of_well(context, units=units, services=services)))
    assert said[1] == [
        ["Softener", "ion exchange", "Apr 2015 – 2020", "Hardness, oddity", ""],
        ["Lamp", "ultraviolet lamp", "not known", "", ""],
    ]
    assert [row[0] for row in said[2]] == ["Jan 2019 – Feb 2019", "Mar 2021"]
    assert [row[1] for row in said[2]] == ["Softener", "Lamp"]
    assert said[2][1][2].endswith("; meter: 200 h")
    bare = prose(wells.wells(of_well(context, units=(), services=(), events=(), upkeep=(),
                                     private_events=0)))  # fmt: skip
    assert bare.count("None entered.") == 2
    assert "Nothing is asked for." in bare
    assert "Events marked private are not shown." not in bare
    assert prose(wells.wells(changed(context, wells=())))[-1] == "No well was entered."


def test_what_is_private_is_said_to_be_left_out_and_a_span_has_both_its_days(context):
    event = Event(1, 1, "repair", "2020-01-02", "2020-01-09", "new cap")
    shown = of_well(context, events=(event,), private_events=1)
    assert tables(wells.wells(shown))[-1] == [["2 Jan 2020 – 9 Jan 2020", "repair", "new cap"]]
    assert prose(wells.wells(shown))[-1] == "Events marked private are not shown."


@pytest.mark.parametrize(
    ("lab", "said"),
    [
        (Lab(1, "Larkspur Laboratory", "no. 4", "2012", "2020-06-30"),
         ["2012 – 30 Jun 2020", "4", "not shown to be valid for test 1"]),
        (Lab(1, "Larkspur Laboratory", "no. 4", "2004-05-03", ""),
         ["since 3 May 2004", "4", "valid for every test"]),
        (Lab(1, "Larkspur Laboratory", "no. 4", "2013", ""),
         ["since 2013", "4", "not shown to be valid for tests 1, 2"]),
        (Lab(1, "Larkspur Laboratory", "no. 4"), ["", "4", "not known"]),
        (Lab(1, "Larkspur Laboratory", "", "2001"), ["since 2001", "4", "not known"]),
        (Lab(1, "Hollin Labs", "no. 4", "2001"), ["since 2001", "0", ""]),
    ],
)  # fmt: skip
def test_a_lab_is_held_against_the_days_of_its_tests(context, lab, said):
    (row,) = tables(wells.labs(changed(context, labs=(lab,))))[0]
    assert row[0] == "1"
    assert row[3:] == said
    assert row[2] == (lab.accreditation or "not entered")


def test_where_no_lab_was_entered_that_is_said(context):
    assert prose(wells.labs(changed(context, labs=())))[-1] == "No lab was entered."


LEFT = LeftBehind(1, 3, 1, 1204, 2408, ("the well Home",))


def source(*samples, **more):
    whole = Source("ABCD", True, "2026-11-01", "", "", None, "", samples, (), ())  # noqa: FBT003
    return replace(whole, **more)


def test_each_packet_that_tests_came_from_is_told_with_what_it_left_out(context):
    numbers = [test.sample.id for test in context.history.tests]
    whole, part = source(*numbers[:2]), source(numbers[3], left_out=LEFT, is_compared=False)
    said = prose(origins.origins(changed(context, sources=(whole, part))))
    assert said[1] == (
        "Tests 1 to 2 came from a packet of 1 Nov 2026 (check code ABCD), which left out nothing "
        "of the book that it was made from. Its code was compared with the one that the household "
        "told."
    )
    assert said[2] == (
        "Test 4 came from a packet of 1 Nov 2026 (check code ABCD), which itself left out 1 of 3 "
        "tests, 1,204 of 2,408 readings and 1 struck test (the well Home). Nobody compared its "
        "code with the one that the household told."
    )
    assert said[3] == ("Tests 3, 5 in this packet: entered in the book that it was made from.")
    assert said[4] == "Tests that were never entered can’t be seen from here."


def test_page_one_names_only_packets_that_left_something_out(context):
    numbers = [test.sample.id for test in context.history.tests]
    sources = (source(*numbers), source(*numbers[:3:2], left_out=LEFT, through="EFGH", day=""))
    said = origins.first_words(changed(context, sources=sources).history)
    assert said.startswith("Before that, tests 1, 3 came from a packet of an unknown day, as that")
    assert "ABCD" not in said
    assert origins.first_words(context.history) == ""
    assert "taken over from other packets" in origins.whole_words(
        changed(context, sources=sources).history
    )
    assert "never entered" in origins.whole_words(context.history)


def test_originals_that_did_not_travel_are_told_with_their_fingerprints(context):
    (held,) = context.history.documents
    number = context.history.tests[1].sample.id
    missing = (
        MissingOriginal(number, "lab report", held.sha256),
        MissingOriginal(number, "lab report", "a" * 64),
        MissingOriginal(0, "photo", "b" * 64),
    )
    (rows,) = tables(origins.origins(changed(context, sources=(source(missing=missing),))))
    assert rows == [["lab report", "test 2", "a" * 64], ["photo", "well", "b" * 64]]


def test_originals_stand_with_what_they_belong_to_and_why_they_stay_behind(context):
    (kept,) = context.history.documents
    rows = tables(originals.documents(context))[0]
    assert [row[:3] for row in rows] == [["lab report", "test 3", "53"]]
    assert rows[0][3] == f"{kept.sha256[:32]}{kept.sha256[32:]}"
    other = replace(kept, id=9, sample=None, well=1, kind="photo")
    tests = tuple(
        replace(test, documents=(kept,)) if test.number == 1 else test
        for test in context.history.tests
    )
    rows = tables(originals.documents(changed(context, tests=tests, documents=(kept, other))))[0]
    assert [row[:2] for row in rows] == [["lab report", "tests 1, 3"], ["photo", "well"]]


def test_pages_of_originals_are_counted_and_those_left_out_are_named():
    assert originals._pages(original(("", ""))) == "2 pages"
    assert originals._pages(original(("", "it is empty"))) == "1 page; page 2 left out: it is empty"
    assert originals._pages(original((), "can’t be read")) == "not appended: can’t be read"


def original(pages, trouble=""):
    document = Document(1, 1, None, "lab report", "a.pdf", "application/pdf", 0, "")
    return Original(document, trouble, pages)


def test_a_consultant_s_questions_count_what_readings_lack(contexts):
    context = contexts["consultant"]
    said = [one.removeprefix("• ").strip() for one in prose(readings.questions(context))[1:]]
    assert said[0] == "Names that the program does not know, so not compared: Unobtainium."
    assert said[1].startswith("Arsenic at Pressure tank, 12 Sep 2012: Not found, but the lab could")
    assert said[2:] == [
        "13 of 15 readings have no method.",
        "The time of day was not written down for test 1.",
    ]
    (facts,) = context.history.wells
    bare = renamed(facts, construction={})
    assert prose(readings.questions(changed(context, wells=(bare,))))[-1].endswith(
        "Tamarack Hill: nothing was entered about how the well was built."
    )


def test_readings_stand_by_parameter_and_day_in_one_unit(contexts):
    raw, _tap = tables(readings.readings(contexts["consultant"]))
    nitrate = [row[:5] for row in raw if row[0] == "Nitrate"]
    # 31.9 mg/L as NO3 are 7.2 mg/L as N: 14.007 g/mol in 62.005 g/mol.
    assert nitrate == [
        ["Nitrate", "1", "2004-05-03", "31.9 mg/L as NO3", "7.21 mg/L as N"],
        ["Nitrate", "2", "2012-09-12", "8.6 mg/L as N (J)", "8.6 mg/L as N"],
        ["Nitrate", "3", "2019-05-02", "11.4 mg/L as N", "11.4 mg/L as N"],
    ]
    (undetected,) = [row for row in raw if row[0] == "Arsenic" and row[1] == "2"]
    assert undetected[3:6] == ["<0.05 mg/L", "< 50 µg/L", "0.05"]
    assert raw[-1][0] == "Unobtainium", "what nobody knows comes last"
    assert {row[8] for row in raw} == {"1"}


def test_the_sizing_sheet_tells_the_latest_raw_water_and_what_is_to_be_found_out(contexts):
    context = contexts["consultant"]
    water, house = [words(piece) for piece in sizing.sizing(context) if words(piece)][3::2][:2]
    cells = {row[at]: row[at + 1 : at + 3] for row in water[1:] for at in (0, 3)}
    assert cells["Nitrate"] == ["11.4 mg/L as N", "2 May 2019"]
    assert cells["Arsenic"] == ["<0.05 mg/L", "12 Sep 2012"]
    assert cells["Hardness"] == ["14.2 gpg", "12 Sep 2012"], "the tap behind is not raw"
    assert cells["pH *"] == ["6.1 pH units", "2 May 2019"]
    assert cells["Iron, ferrous *"] == ["not known", ""]
    assert house[-1] == ["Softener", "ion exchange, Apr 2015, settings not known"]
    last = prose(sizing.sizing(context))[-1]
    assert last.startswith("To find out before or at a visit: Calcium, Magnesium, Sodium")
    assert last.endswith("Drain for a backwash, Power at the place.")
    (facts,) = context.history.wells
    gone = tuple(replace(unit, removed="2020") for unit in facts.units)
    without = [words(piece) for piece in sizing.sizing(of_well(context, units=gone))]
    assert ["Treatment in use", "none is written down"] in without[-2]


def test_numbers_that_follow_one_another_are_told_as_spans():
    assert origins._spans([1, 2, 3, 5, 7, 8]) == ["1 to 3", "5", "7 to 8"]


def test_what_a_well_needs_is_told_with_who_does_it(context):
    upkeep = tables(wells.wells(context))[3]
    assert [(row[0], row[1], row[3]) for row in upkeep] == [
        ("wellhead and surroundings", "nobody wrote down when this was last done", "owner"),
        ("well, pump and pressure tank", "nobody wrote down when this was last done",
         "licensed well contractor"),
    ]  # fmt: skip


@pytest.fixture(scope="module")
def minerals(tmp_path_factory, catalogue):
    """A consultant's packet of one sample with the main ions and a pH that can't be."""
    style.register_fonts(paths.resources() / "fonts")
    with household.new_book(tmp_path_factory.mktemp("ions") / "b.wellbook") as book:
        tap = book.add_point(book.add_well("Home"), "Tank")
        figures = {"calcium": "80", "magnesium": "20", "alkalinity": "200", "tds": "400"}
        found = [household.result(key, key, text, "mg/L") for key, text in figures.items()]
        odd = household.result("ph", "pH", "17", "pH units")
        book.add_sample(household.sample(tap, "2024-05-03", *found, odd))
        return packet.gathered(book.record(), catalogue, TODAY, packet.PacketOptions("consultant"))


def test_each_index_has_its_value_its_test_and_its_source(minerals):
    (rows,) = tables(readings.index_tables(minerals))
    hardness = next(row for row in rows if "ardness" in row[0])
    # 2.497 mg/L as CaCO3 for each mg/L of calcium, 4.118 for magnesium: Standard Methods 2340 B.
    assert hardness[1].startswith("282")
    assert all(row[1] and row[2] == "1" and row[4] for row in rows)


def test_what_looks_odd_is_a_question_of_its_test(minerals, contexts):
    (rows,) = tables(readings.plausibility(minerals))
    assert {row[0] for row in rows} == {"1"}
    assert any("pH" in row[2] and row[1] == "question" for row in rows)
    assert prose(readings.plausibility(contexts["consultant"]))[-1] == "Nothing was found to ask."


def test_samples_of_one_day_that_share_only_their_ph_are_no_pair(contexts):
    """Both were drawn on 2 May 2019; how much of a pH a unit takes out is no question."""
    assert prose(trends.treatment(contexts["consultant"]))[-1] == (
        "Tamarack Hill: no figures of raw and treated water of one day that can be compared."
    )


def test_what_serves_is_told_for_each_finding_of_raw_water(contexts):
    (rows,) = tables(sizing.fit(contexts["consultant"]))
    assert [row[0] for row in rows] == [
        "E. coli, Total coliform",
        "Nitrate, Nitrate + nitrite",
        "Manganese",
        "pH",
        "Hardness",
    ]
    assert all("Usually serve: " in row[1] and " Source: " in row[1] for row in rows)
    assert "neutralizer (pH 6.1, at least 7)" in rows[2][2]
    (facts,) = contexts["consultant"].history.wells
    treated = facts.overview.points[1:]
    alone = replace(facts, overview=replace(facts.overview, points=treated))
    assert sizing.fit(changed(contexts["consultant"], wells=(alone,))) == []


def test_a_buyer_finds_three_charts_among_the_answers_and_the_others_in_the_record(contexts):
    buyer, consultant = contexts["buyer"], contexts["consultant"]
    (one, *_others) = buyer.figures
    for n, first, more in ((1, 1, 0), (3, 3, 0), (4, 3, 1), (5, 3, 2)):
        many = replace(buyer, figures=(one,) * n)
        assert [len(headings(part(many))) for part in (charts.charts, charts.more_charts)] == [
            first,
            more,
        ]
        assert bool(charts.more_charts(many)) is bool(more)
    whole = replace(consultant, figures=(one,) * 5)
    assert len(headings(charts.charts(whole))) == 5
    assert charts.more_charts(whole) == []
    assert "nothing to draw" in prose(charts.charts(replace(buyer, figures=())))[1]


def headings(story):
    """The charts of a part, each kept together with its heading."""
    return [piece for piece in story if isinstance(piece, KeepTogether)]


def test_a_wheel_stands_beside_its_sentence_for_each_point(context):
    assert len(context.wheels) == 2
    said = [words(piece) for piece in charts.year_wheels(context)]
    assert said[0] == "When in the year"
    beside = [rows[0][1] for rows in said[2:]]
    assert beside == [[wheel.title, wheel.sentence] for wheel in context.wheels]


def test_only_what_was_written_down_of_a_well_has_a_row(context):
    said = [words(piece) for piece in wells.wells(context)]
    assert said[2] == [
        ["Depth", "185 ft"],
        ["Casing", "steel, 6 in, 42 ft"],
        ["Note", "The gate is at [covered: personal]."],
    ]
    assert tables(wells.wells(context))[2] == [
        ["Mar 2021", "Softener", "new media", "Resin changed"]
    ]


def test_where_nothing_needs_attention_that_is_no_all_clear(context):
    none = prose(at_a_glance.attention(changed(context, wells=(), tests=())))[1]
    assert none.startswith("There is no test that could show anything. Never tested:")
    some = prose(at_a_glance.attention(changed(context, wells=())))[1]
    assert some.startswith("In the latest test of each parameter at each point no reading is")
    assert len(prose(at_a_glance.attention(context))) == 1


def test_what_a_history_sums_up_to_stands_in_the_record_and_not_among_the_answers(contexts):
    buyer = contexts["buyer"]
    figure = replace(buyer.figures[0], summary=("Half of all readings lie below 4.",))
    many = replace(buyer, figures=(figure,) * 4)
    assert "Half of all readings" not in str(words(charts.charts(many)))
    assert str(words(charts.more_charts(many))).count("Half of all readings") == 4
