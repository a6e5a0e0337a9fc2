"""Where pages of the record turn: ties of one day, ends of a count, one or several wells."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import household
import pytest
from packet_fixtures import TODAY
from reportlab.platypus import CondPageBreak, KeepTogether
from test_what_the_pages_say import prose, renamed, tables, words
from test_what_the_record_says import changed, contexts, of_well, source  # noqa: F401  a fixture

from wellbook.book.rows import Document, Event, InspectionAnswer, Lab, TreatmentUnit
from wellbook.packet import packet
from wellbook.packet.pages import (
    at_a_glance,
    charts,
    closing,
    fitness,
    originals,
    origins,
    readings,
    results,
    sizing,
    wells,
)
from wellbook.pdf import style
from wellbook.pdf.flowables import ChartSpace
from wellbook.planning.upkeep.costs import PaidFor, YearOfCosts
from wellbook.sandbox.originals import Original
from wellbook.sharing.attachable import ScreenedOriginal
from wellbook.sharing.excerpt import LeftOut
from wellbook.sharing.sources import LeftBehind, MissingOriginal
from wellbook.support import paths
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind


@pytest.fixture
def buyer(contexts):  # noqa: F811
    return replace(contexts["buyer"], limits={})


@pytest.fixture
def consultant(contexts):  # noqa: F811
    return replace(contexts["consultant"], limits={})


@pytest.fixture(scope="module")
def farm(tmp_path_factory, catalogue):
    """A consultant's packet of two wells whose tap was tested twice on one day."""
    style.register_fonts(paths.resources() / "fonts")
    with household.new_book(tmp_path_factory.mktemp("farm") / "b.wellbook") as book:
        home, barn = book.add_well("Home"), book.add_well("Barn", construction={"depth": "90 ft"})
        tap = book.add_point(home, "Tap")
        book.add_point(home, "Hose")
        shed = book.add_point(barn, "Tap", treated=True)
        book.add_event(barn, "flood", "2023-05-01")
        book.add_service(book.add_unit(barn, "Softener"), "media", "2023-06-01")
        one = household.result
        same = {"lab": "Brook Lab", "standing": "lab", "purpose": "sale"}
        book.add_lab("Brook Lab", accreditation="no. 4")
        book.add_sample(
            household.sample(
                tap, "2024-05-03T08:00",
                one("lead", "Lead", "12", "µg/L", draw="first draw"),
                one("lead", "Lead", "40", "µg/L", draw="flushed"),
                one("copper", "Copper", "0.2", "mg/L", draw="flushed"),
                one("copper", "Copper", "0.1", "mg/L", draw="first draw"),
                one("iron", "Iron", "0.1", "mg/L", fraction="dissolved"),
                one("nitrate", "Nitrate", "2", "mg/L", basis="as N"), **same,
            )
        )  # fmt: skip
        book.add_sample(
            household.sample(
                tap, "2024-05-03T09:00",
                one("lead", "Lead", "11", "µg/L", draw="first draw"),
                one("iron", "Iron", "0.9", "mg/L", fraction="total"),
                one("nitrate", "Nitrate", "1", "mg/L", basis="as N"),
                standing="owner",
            )
        )  # fmt: skip
        for day, text in (("2022-05-03", "1"), ("2024-05-01", "60")):
            book.add_sample(household.sample(shed, day, one("lead", "Lead", text, "µg/L")))
        options = packet.PacketOptions("consultant")
        return packet.gathered(book.record(), catalogue, TODAY, options)


def test_points_bear_the_names_of_their_wells_and_untested_ones_are_left_out(farm):
    assert [name for name, _point in at_a_glance.points_of(farm)] == ["Home: Tap", "Barn: Tap"]


def test_what_presses_stands_first_of_whatever_well_and_events_are_those_of_its_own(farm):
    cases = [piece._content for piece in at_a_glance.attention(farm)[1:]]
    # Lead: 15 µg/L (40 CFR 141.80); iron: 0.3 mg/L, for taste (143.3).
    assert [words(case[0])[0][1:3] for case in cases] == [
        ["Lead: 60 µg/L", "Barn: Tap, 1 May 2024"],
        ["Lead: 40 µg/L", "Home: Tap, flushed, 3 May 2024"],
        ["Iron: 0.9 mg/L", "Home: Tap, 3 May 2024"],
    ]
    assert "Between the two: flood, 1 May 2023; new media, 1 Jun 2023." in str(words(cases[0]))
    assert "Between" not in str(words(cases[1:]))
    shape, colour = style.SHAPES[Verdict.OUTSIDE]
    mark = cases[0][0]._cellvalues[0][0]
    assert (mark._shape, mark._colour) == (shape, colour)


def test_a_verdict_that_changed_is_told_by_today_first_and_else_once(farm):
    context = replace(farm, limits={})
    standing = farm.history.wells[1].overview.points[0].standings[0]
    (once,) = at_a_glance._verdicts(context, standing)
    assert once.startswith("Over the limit. Limit: up to 15 µg/L")
    other = replace(standing.then, verdict=Verdict.WITHIN)
    today, that_day = at_a_glance._verdicts(context, replace(standing, then=other))
    assert "over the limit" in today.casefold()
    assert "within the limit" in that_day.casefold()
    bare = replace(standing.now, limit=None)
    assert "Limit:" not in at_a_glance._sentence(context, bare, standing.latest.reading)


def test_a_summary_has_a_table_for_each_point_with_its_side(farm):
    said = prose(at_a_glance.summary(farm))
    assert [one for one in said if one.endswith(" treatment)")] == [
        "Home: Tap (before treatment)",
        "Barn: Tap (after treatment)",
    ]
    assert not any("Also tested" in one for one in said)


def test_of_one_day_the_first_draw_stands_for_a_parameter_and_of_two_alike_the_worse(farm):
    """But what is over its limit comes before either."""
    asked = tables(fitness.lenders(farm))[0]
    found = {row[0]: row[1:3] for row in asked}
    tap = "3 May 2024, Home: Tap"
    assert found["Lead"] == ["40 µg/L, flushed", tap]
    assert found["Iron"] == ["0.9 mg/L", tap]
    assert found["Nitrate"] == ["2 mg/L as N", tap]
    latest = fitness._latest(farm)
    (tap_of_home, *_others) = (point.point.id for _name, point in at_a_glance.points_of(farm))
    assert latest[tap_of_home]["copper"][0].reading.text == "0.1", "the first draw"


def test_what_was_asked_stands_once_with_its_lab_its_drawer_and_its_way(farm):
    asked, ways, _distances, readers = tables(fitness.lenders(farm))
    assert len({row[0] for row in asked}) == len(asked)
    assert [row[4:] for row in asked[:3]] == [
        ["lab", "not known"],
        ["lab", "not known"],
        ["owner", "not known"],
    ]
    assert {row[1] for row in asked[3:]} == {"not tested"}
    unknown = "not known"
    assert ways == [
        ["3 May 2024, 08:00, Home: Tap", "lab", unknown, unknown, "Brook Lab"],
        ["3 May 2024, 09:00, Home: Tap", "owner", unknown, unknown, unknown],
    ]
    notes = {row[0]: row[3] for row in readers}
    raw = "Asked of the water before treatment."
    assert raw in notes["Sale of a house in Oregon"]
    assert raw not in notes["Other loan"]
    left = LeftOut(1, 2, 0, 0, 1, ("from 2024",), {})
    part = tables(fitness.lenders(changed(farm, left_out=left)))[0]
    assert {row[1] for row in part[3:]} == {"not in this packet"}


def test_a_rule_on_raw_water_is_not_held_against_treated_water(farm):
    rules = {rule.key: rule for rule in farm.sale_rules}
    known = fitness._latest(farm)
    home, barn = (point.point.id for _name, point in at_a_glance.points_of(farm))
    later = {home: known[home], barn: known[barn]}
    for rule, point in (("us-nj-sale", "Home: Tap"), ("us-va-loan", "Home: Tap")):
        key, found = fitness._asked(farm, rules[rule], "lead", later)
        assert (key, found[0]) == ("lead", point)
    only = {barn: known[barn]}
    assert fitness._asked(farm, rules["us-nj-sale"], "lead", only) == ("lead", None)
    assert fitness._asked(farm, rules["us-va-loan"], "lead", only)[1][0] == "Barn: Tap"


def test_of_two_points_tested_on_one_day_the_worse_stands_and_a_later_day_before_either(farm):
    rule = {rule.key: rule for rule in farm.sale_rules}["us-va-loan"]
    home, barn = (point.point.id for _name, point in at_a_glance.points_of(farm))
    test = farm.history.tests[1]
    for day, shown in (("2024-05-03", "Barn: Tap"), ("2024-05-02", "Home: Tap")):
        (one,) = test.results
        collected = LocalTime.parse(day)
        moved = replace(one, result=replace(one.result, collected=collected))
        sample = replace(test.sample, collected=collected)
        tests = [*farm.history.tests, replace(test, sample=sample, results=(moved,))]
        del tests[1]
        known = fitness._latest(changed(farm, tests=tuple(tests)))
        assert {*known} == {home, barn}
        assert fitness._asked(farm, rule, "lead", known)[1][0] == shown


def test_a_sample_s_way_to_the_lab_is_told_as_far_as_it_was_written_down(buyer):
    test = buyer.history.tests[0]
    moment = LocalTime.parse("2004-05-03T15:00")
    sample = replace(test.sample, sampler="A. Person", dispatched=moment, received=moment,
                     temperature="4 °C", lab_number="A-7")  # fmt: skip
    assert fitness._way(replace(test, sample=sample), "Tap") == [
        "3 May 2004, Tap", "A. Person, owner", "3 May 2004, 15:00", "3 May 2004, 15:00, 4 °C",
        "Larkspur Laboratory, A-7",
    ]  # fmt: skip
    bare = replace(test.sample, standing="", lab="")
    assert fitness._way(replace(test, sample=bare), "Tap")[1:] == ["not known"] * 4


def test_a_group_that_lacks_what_it_can_t_do_without_has_no_age(farm):
    (rows,) = tables(fitness.ages(farm))
    assert [row[0] for row in rows] == ["Nitrate", "Lead and copper at the tap"]
    assert rows[1][3:] == ["lab", "sale of the house"]
    assert "Barn: Tap (after treatment)" not in prose(fitness.ages(farm))
    nobody = replace(farm.history.tests[2].sample, standing="", purpose="")
    tests = tuple(replace(test, sample=nobody) if test.number == 3 else test
                  for test in farm.history.tests)  # fmt: skip
    (rows,) = tables(fitness.ages(changed(farm, tests=tests)))
    assert rows[0][3:] == ["not known", ""]


FLOW = Event(1, 1, "flow test", "2020-11-25", flow="6", flow_unit="gal/min")


@pytest.mark.parametrize(
    "more",
    [
        {"text": "not analysed", "kind": Kind.NONE, "number": None},
        {"flags": frozenset({Flag.REJECTED})},
    ],
)
def test_what_was_not_analysed_or_rejected_is_no_test_at_a_sale(farm, more):
    later = LocalTime.parse("2026-11-20")
    test = farm.history.tests[2]
    found = [
        replace(one, result=replace(one.result, collected=later,
                                    reading=replace(one.result.reading, **more)))
        for one in test.results
    ]  # fmt: skip
    empty = replace(test, sample=replace(test.sample, collected=later), results=tuple(found))
    context = changed(farm, tests=(*farm.history.tests, empty))
    assert tables(fitness.lenders(context))[0] == tables(fitness.lenders(farm))[0]
    assert tables(fitness.ages(context)) == tables(fitness.ages(farm))
    alone = tables(fitness.lenders(changed(farm, tests=(empty,))))[0]
    assert {row[1] for row in alone} == {"not tested"}


def test_a_test_from_which_nothing_can_be_told_is_not_offered_as_one_that_fits(farm):
    """Lead at most 15 µg/L (40 CFR 141.80): less than 50 µg/L tells nothing of that."""
    test = farm.history.tests[1]
    rules = farm.sale_rules

    def fits(**more):
        found = [replace(one, now=replace(one.now, **more)) for one in test.results]
        context = changed(farm, tests=(replace(test, results=tuple(found)),))
        known = fitness._latest(context)
        asked = [fitness._asked(context, rule, "lead", known)[1] for rule in rules]
        verdicts = zip(rules, asked, strict=True)
        return [fitness._verdict(rule, one, TODAY) for rule, one in verdicts if one]

    plain, open_ = fits(verdict=Verdict.WITHIN), fits(verdict=Verdict.UNDECIDABLE)
    assert plain
    assert [
        f"{one}; whether it is within its limit can’t be told, test again" for one in plain
    ] == open_


def test_a_flow_test_is_told_with_its_age(buyer):
    told = fitness._flow_test(buyer.history.wells[0], TODAY)[1]
    assert told == "none written down: ask for one, with day, hours and drawdown"
    facts = replace(buyer.history.wells[0], events=(FLOW,))
    what, said = fitness._flow_test(facts, TODAY)
    assert what == "Flow test"
    assert said.startswith("flow test of 25 Nov 2020: 6 gal/min")
    assert said.endswith("(age: 6 years)")
    unread = replace(facts, events=(replace(FLOW, day="2020-77"),))
    assert fitness._flow_test(unread, TODAY)[1].endswith("(age: not known)")


def looked(number, event, item, answer, *more):
    return InspectionAnswer(number, event, item, answer, *more)


def test_the_latest_look_at_what_has_a_distance_is_told_and_what_was_not_seen_is_not(buyer):
    events = (replace(FLOW, id=7, kind="inspection", day="2021-05-01"),
              replace(FLOW, id=8, kind="inspection", day="2020-05-01"))  # fmt: skip
    answers = (
        looked(1, 7, "septic-tank", "bad", "Too near.", "2021-06"),
        looked(2, 8, "septic-tank", "good"),
        looked(3, 8, "fuel", "good"),
        looked(4, 7, "fuel", "not seen"),
        looked(5, 7, "cap", "bad"),
    )
    context = of_well(buyer, events=events, answers=answers)
    (facts,) = context.history.wells
    names = {item.key: item.name for item in context.history.checklist}
    rows = fitness._looked_at(context, facts)
    assert {name for name, _said in rows} == {names["septic-tank"], names["fuel"]}
    told = dict(rows)
    assert "1 May 2021" in told[names["septic-tank"]]
    assert told[names["septic-tank"]].endswith("Too near. Put right on Jun 2021.")
    assert "1 May 2020" in told[names["fuel"]]
    assert "Put right" not in told[names["fuel"]]
    shown = tables(wells.wells(context))[-1]
    assert [(row[0], row[1]) for row in shown] == [
        ("1 May 2020", names["septic-tank"]),
        ("1 May 2020", names["fuel"]),
        ("1 May 2021", names["septic-tank"]),
        ("1 May 2021", names["fuel"]),
        ("1 May 2021", names["cap"]),
    ]
    assert shown[2][3:] == ["Jun 2021", "Too near."]


def test_a_point_at_which_nothing_else_was_tested_has_the_age_of_its_group(farm):
    test = farm.history.tests[3]
    (nitrate,) = (one for one in test.results if one.result.parameter == "nitrate")
    alone = changed(farm, tests=(replace(test, results=(nitrate,)),))
    (rows,) = tables(fitness.ages(alone))
    assert [row[0] for row in rows] == ["Nitrate"]
    assert prose(fitness.ages(alone))[1].endswith(
        "A group is as old as the oldest of the tests it can’t do without. A test that the owner "
        "drew is good history, but most lenders don’t take it."
    )


def test_all_tests_begin_with_a_word_on_bases_and_a_book_without_tests_has_none(farm):
    mind = "mind the basis when you compare."
    assert words(results.tests(farm))[1].endswith(mind)
    assert not any(one.endswith(mind) for one in prose(results.tests(changed(farm, tests=()))))


def test_a_rule_that_names_no_test_says_so(buyer):
    rule = replace(buyer.sale_rules[0], parameters=())
    (*_pieces, table) = fitness._readers(replace(buyer, sale_rules=(rule,)), {}, TODAY)
    assert words(table)[1][2] == "It names no test."


def test_whether_a_lab_was_accredited_that_day_is_told_only_where_days_were_entered(buyer):
    result = buyer.history.tests[1].results[0].result
    lab = Lab(1, "Larkspur Laboratory", "no. 4", "2012", "2020-06-30")
    for one, said in (
        (lab, "valid"),
        (replace(lab, valid_from="2013"), "not shown to be valid"),
        (replace(lab, valid_from=""), "valid"),
        (replace(lab, valid_to=""), "valid"),
        (replace(lab, valid_from="", valid_to=""), "not known"),
        (replace(lab, accreditation=""), "not known"),
        (replace(lab, name="Other Lab"), "not known"),
    ):
        assert fitness._lab_then(changed(buyer, labs=(one,)), result) == said


def spaces(story):
    """The spaces for drawings of a story, as number and height."""
    found = []
    for piece in story:
        if isinstance(piece, ChartSpace):
            found.append((piece._chart, piece.height))
        elif isinstance(piece, KeepTogether):
            found += spaces(piece._content)
    return found


def test_drawings_among_the_answers_heed_the_room_and_those_of_the_record_are_whole(buyer):
    (one, *_others) = buyer.figures
    many = replace(buyer, figures=(one,) * 5, scale=0.5)
    assert spaces(charts.charts(many)) == [(0, 86.0), (1, 86.0), (2, 86.0)]
    assert spaces(charts.more_charts(many)) == [(3, 172.0), (4, 172.0)]
    whole = replace(many, technical=True)
    assert spaces(charts.charts(whole)) == [(place, 172.0) for place in range(5)]


def test_a_chart_is_a_bookmark_under_its_section(buyer):
    (piece, *_others) = charts._drawn(buyer, slice(1), 1.0)
    assert piece._content[0]._level == 1


def test_a_chart_is_told_by_its_sentences_then_its_notes_then_its_summary(buyer):
    figure = buyer.figures[0]
    drawn = replace(figure.chart, sentences=("First.", "Last."), notes=("Note.",))
    figure = replace(figure, chart=drawn, summary=("Half lie below 4.",))
    (piece,) = charts._drawn(replace(buyer, figures=(figure,)), slice(None), 1.0, summed_up=True)
    assert prose(piece._content) == [figure.title, "First.", "Last. Note.", "Half lie below 4."]
    (piece,) = charts._drawn(replace(buyer, figures=(figure,)), slice(None), 1.0)
    assert prose(piece._content) == [figure.title, "First.", "Last. Note."]
    whole = replace(buyer, figures=(figure,), technical=True)
    assert "Half lie below 4." in str(words(charts.charts(whole)))
    few = replace(buyer, figures=(replace(figure, summary=()),) * 4)
    assert charts._summed_up(few) == []


def test_wheels_are_numbered_on_from_the_charts(buyer):
    found = [piece._cellvalues[0][0]._chart for piece in charts.year_wheels(buyer)[2:]]
    assert found == [len(buyer.figures), len(buyer.figures) + 1]


def test_where_a_packet_before_left_tests_out_the_gaps_are_said_to_be_open(buyer):
    left = LeftBehind(1, 3, 1, 12, 24, ("one",))
    said = "A packet that this record was taken over from left tests out"
    for sources, is_said in (((source(1, left_out=left),), True), ((source(1),), False)):
        story = prose(closing.never_tested(changed(buyer, sources=sources)))
        assert any(one.startswith(said) for one in story) is is_said


def test_a_group_was_last_tested_when_all_it_can_t_do_without_was(buyer):
    (panel, *_others) = buyer.history.catalogue.panels.values()
    panel = replace(panel, core=("lead", "iron"), also=("zinc", "langelier"))
    old, new = date(2001, 2, 3), date(2002, 2, 3)
    assert closing._gap(buyer, panel, {"lead": new, "iron": old})[1] == "3 Feb 2001"
    assert closing._gap(buyer, panel, {"lead": new})[1:] == ["in part", "Iron, Zinc"]
    assert closing._gap(buyer, panel, {"zinc": new})[1:] == ["never", "Lead, Iron"]
    done = closing._gap(buyer, panel, {"lead": new, "iron": old, "zinc": new})
    assert done[2] == ""


def test_struck_tests_stand_under_a_word_that_they_are_not_counted(buyer):
    said = "Struck out, and so not counted anywhere else in this packet:"
    assert said in prose(closing.corrections(buyer))
    assert said not in prose(closing.corrections(changed(buyer, struck=())))
    changes = "Every change of a test or a reading after it was entered; days are in UTC."
    assert changes in prose(closing.corrections(buyer))
    assert changes not in prose(closing.corrections(changed(buyer, corrections=())))


def test_no_limit_used_is_said_and_sets_have_their_notes(buyer):
    assert prose(closing.limits(replace(buyer, limits={})))[-1] == (
        "No verdict in this packet rests on a limit."
    )
    limit = buyer.history.tests[2].results[0].now.limit
    catalogue = buyer.history.catalogue
    known = {**catalogue.sets, limit.set: replace(catalogue.sets[limit.set], note="A note.")}
    noted = changed(buyer, catalogue=replace(catalogue, sets=known))
    unread = replace(limit, checked=False)
    story = closing.limits(replace(noted, limits={limit: 1, unread: 2}))
    assert sum(one.endswith(": A note.") for one in prose(story)) == 1
    (rows,) = tables(story)
    warning = "Not checked against the text of the source."
    assert [warning in row[5] for row in rows] == [False, True]
    conditioned = replace(limit, condition="first draw", fraction="total")
    assert closing._limit(buyer, conditioned, 1)[2].endswith("total, first draw")


def test_words_are_explained_in_the_order_of_the_alphabet(buyer):
    terms = [row[0] for row in words(closing.glossary(buyer)[1])]
    assert terms == sorted(terms, key=str.casefold)
    assert len(terms) == len(closing._TERMS)


def screened(document, why=""):
    return ScreenedOriginal(document, b"", why)


def test_an_original_is_told_with_its_name_only_where_it_goes_along(buyer):
    (kept,) = buyer.history.documents
    ask = "The originals are not attached, because they can show names and addresses."
    for context, name, asks in (
        (buyer, "lab report", True),
        (replace(buyer, with_originals=True, originals=(screened(kept),)),
         "lab report: [covered: personal] report.pdf", False),
        (replace(buyer, with_originals=True, originals=(screened(kept, "it is too large"),)),
         "lab report; not attached: it is too large", False),
    ):  # fmt: skip
        story = originals.documents(context)
        assert tables(story)[0][0][0] == name
        assert any(one.startswith(ask) for one in prose(story)) is asks
    none = originals.documents(replace(changed(buyer, documents=()), attachments=()))
    assert "Originals in the book" not in prose(none)
    assert "Nothing." in prose(none)
    assert "Nothing." not in prose(originals.documents(buyer))
    files = tables(originals.documents(buyer))[1]
    assert [row[0] for row in files] == [one.name for one in buyer.attachments]


def test_pages_of_originals_have_a_table_where_some_are_appended(buyer):
    document = Document(1, 1, None, "lab report", "a.pdf", "application/pdf", 0, "")
    appended = (("Original 1", Original(document, "", ("", ""))),)
    story = originals.documents(replace(buyer, appended=appended))
    assert ["Original 1", "2 pages"] in tables(story)[1]
    assert "Pages of originals" in prose(story)
    assert "Pages of originals" not in prose(originals.documents(buyer))


def test_an_appended_original_is_called_by_its_place_its_kind_and_its_test(book, buyer):
    (kept,) = buyer.history.documents
    ((name, one),) = originals.appended(book.record(), buyer.history, (), seconds=20)
    assert name == "Original 1: lab report, test 3"
    assert one.document.id == kept.id
    bare = changed(buyer, tests=()).history
    ((name, _one),) = originals.appended(book.record(), bare, (), seconds=20)
    assert name == "Original 1: lab report, well"


def test_where_the_tests_come_from_is_told_of_a_book_without_packets_and_of_tests_unseen(buyer):
    own = "Every test in this packet was entered in the book that it was made from."
    assert prose(origins.origins(buyer))[1].startswith(own)
    history = buyer.history
    assert origins._tests(history, [999]) == "Tests that are not shown here, or facts of the well,"
    one, two = (test.sample.id for test in history.tests[:2])
    assert origins._tests(history, [two]) == "Test 2"
    assert origins._tests(history, [two, 999, one]) == "Tests 1 to 2"
    every = [test.sample.id for test in (*history.tests, *history.struck)]
    assert origins._rest(changed(buyer, sources=(source(*every),)).history) == ""
    assert origins._rest(changed(buyer, sources=(source(*every[1:]),)).history).startswith(
        "Test 1 in this packet: entered"
    )


def test_what_a_packet_left_out_is_counted_one_or_many():
    one = LeftBehind(1, 1, 0, 1, 1, ())
    assert origins._left_out(one) == "1 of 1 test and 1 of 1 reading"
    more = LeftBehind(1, 2, 2, 3, 4, ("a", "b"))
    assert origins._left_out(more) == "1 of 2 tests, 3 of 4 readings and 2 struck tests (a; b)"


def test_originals_that_stayed_behind_are_named_once_and_only_if_they_are_not_here(buyer):
    gone = MissingOriginal(0, "photo", "b" * 64)
    sources = (source(1, missing=(gone,)), source(2, missing=(gone,)))
    story = origins.origins(changed(buyer, sources=sources))
    assert len(tables(story)[0]) == 1
    said = "These originals did not travel along with it."
    assert any(one.startswith(said) for one in prose(story))
    assert not any(one.startswith(said) for one in
                   prose(origins.origins(changed(buyer, sources=(source(1),)))))  # fmt: skip


def test_a_reading_is_numbered_by_its_lab_and_a_bound_keeps_its_sign(farm, consultant):
    home, _barn = tables(readings.readings(farm))
    assert [(row[0], row[1], row[8]) for row in home][:3] == [
        ("Nitrate", "3", "1"), ("Nitrate", "4", ""), ("Copper", "3", "1"),
    ]  # fmt: skip
    raw, _tap = tables(readings.readings(consultant))
    shown = {(row[0], row[1]): row[4] for row in raw}
    assert shown["Total coliform", "3"].startswith("> 2419.6")
    assert shown["Total coliform", "1"] == "", "absent is no figure"
    assert shown["Unobtainium", "2"] == ""


def with_results(context, *results):
    test = replace(context.history.tests[0], results=results)
    return changed(context, tests=(test,))


def judged(context, **more):
    one = context.history.tests[0].results[0]
    return replace(one, result=replace(one.result, **more))


def test_open_questions_count_one_or_many_and_none_is_said(consultant):
    reading = consultant.history.tests[0].results[1].result.reading
    below = replace(reading, kind=Kind.BELOW, number=None, text="ND")
    whole = judged(consultant, method="EPA 300.0")
    bare = judged(consultant, method="", reading=replace(reading, unit=""))
    unseen = judged(consultant, method="m", reading=below)
    said = [one.removeprefix("• ").strip() for one in
            prose(readings.questions(with_results(consultant, whole, bare, unseen)))]  # fmt: skip
    assert "1 of 3 readings has no method." in said
    assert "1 of 3 readings is a figure without a unit." in said
    assert "1 of 3 readings is a non-detect without a reporting limit." in said
    twice = with_results(consultant, whole, bare, unseen, bare, unseen)
    said = [one.removeprefix("• ").strip() for one in prose(readings.questions(twice))]
    assert "2 of 5 readings have no method." in said
    assert "2 of 5 readings are figures without a unit." in said
    assert "2 of 5 readings are non-detects without a reporting limit." in said
    limited = judged(consultant, method="m", reading=below, reporting_limit="0.1")
    assert list(readings._bare(with_results(consultant, whole, limited))) == []
    (facts,) = consultant.history.wells
    untested = replace(facts, overview=replace(facts.overview, points=()))
    test = consultant.history.tests[2]
    timed = changed(consultant, wells=(untested,), tests=(replace(test, results=()),))
    assert prose(readings.questions(timed))[1:] == [
        "The record leaves none that the program can see."
    ]
    two = changed(consultant, tests=(replace(consultant.history.tests[0], results=()),) * 2)
    assert prose(readings.questions(two))[-1].endswith("not written down for tests 1, 1.")


def test_a_test_is_held_against_the_others_of_its_point_only(consultant, monkeypatch):
    asked = []
    given = []
    monkeypatch.setattr(readings, "check", lambda own, _catalogue, others, **more: asked.append(
        ({one.sample for one in own}, {one.sample for one in others})) or given.append(more)
        or ())  # fmt: skip
    readings.plausibility(consultant)
    assert asked == [({1}, {2, 3}), ({2}, {1, 3}), ({3}, {1, 2}), ({4}, set())]
    assert given == [{"today": TODAY, "received": None}] * 4


def test_a_test_of_more_than_fourteen_rows_may_go_on_on_the_next_page(consultant):
    (one, *_others) = consultant.history.tests[0].results
    for n, kind in ((14, KeepTogether), (15, CondPageBreak)):
        test = replace(consultant.history.tests[0], results=(one,) * n)
        assert isinstance(results.one_test(consultant, test)[0], kind)


def test_a_test_tells_all_that_is_known_of_its_sample(farm):
    test = farm.history.tests[2]
    moment = LocalTime.parse("2024-05-03T15:00")
    document = Document(1, 1, None, "lab report", "a.pdf", "application/pdf", 0, "")
    sample = replace(test.sample, sampler="A. Person", lab_number="A-7", dispatched=moment,
                     received=moment, temperature="4 °C", reported="2024-05-10", rain="3 in",
                     note="Cloudy.", draw="first draw")  # fmt: skip
    said = results._facts(replace(test, sample=sample, documents=(document,) * 2))
    assert said == [
        "Before treatment", "Drawn by A. Person, lab", "Purpose: sale of the house", "First draw",
        "Lab: Brook Lab", "Lab’s number A-7", "Sent off 3 May 2024, 15:00",
        "Received 3 May 2024, 15:00", "At 4 °C", "Reported 10 May 2024", "Originals: 2 documents",
        "Rain of the ten days before: 3 in", "Note: Cloudy",
    ]  # fmt: skip
    bare = replace(sample, sampler="", standing="", purpose="", draw="", lab="", lab_number="",
                   dispatched=None, received=None, temperature="", reported="", rain="",
                   note="")  # fmt: skip
    assert results._facts(replace(test, sample=bare, treated=True)) == ["After treatment"]
    assert results.where(farm, test) == "Home, Tap"


def test_one_remark_of_several_readings_stands_once_with_their_names(farm):
    test = farm.history.tests[2]
    (copper,) = (one for one in test.results if one.result.reading.text == "0.2")
    other = replace(copper, result=replace(copper.result, name="Cu"))
    unknown = replace(copper, parameter=None)
    (said,) = results._remarks(replace(test, results=(copper, unknown, other)))
    assert said.getPlainText().startswith("Copper, Cu: The figure is meant for a first draw after")
    told = [one.getPlainText() for one in results._remarks(test)]
    assert [one.partition(":")[0] for one in told] == ["Lead", "Lead", "Copper", "Iron"]


def test_a_lab_that_differs_is_told_even_without_a_method(buyer):
    test = buyer.history.tests[0]
    one = test.results[0]
    for lab, method, said in (
        ("Hollin", "", "(Hollin)"), ("Hollin", "m", "m (Hollin)"),
        ("Larkspur Laboratory", "m", "m"), ("", "m", "m"),
    ):  # fmt: skip
        result = replace(one.result, lab=lab, method=method)
        assert results._row(buyer, test, replace(one, result=result))[3] == said


def test_all_that_was_found_on_the_latest_day_of_raw_water_is_told_each_once(farm):
    pieces = [words(piece) for piece in sizing.sizing(farm)]
    titles = [one for one in pieces if isinstance(one, str) and "drawn at" in one]
    assert titles == ["Home: drawn at Tap, Hose", "Barn: drawn at not known"]
    home, barn = (piece for piece in pieces if isinstance(piece, list) and len(piece[0]) == 6)
    left = {row[0]: row[1:3] for row in home[1:]}
    assert left["Iron"] == ["0.1 mg/L, dissolved0.9 mg/L, total", "3 May 2024"]
    assert left["Nitrate"] == ["2 mg/L as N1 mg/L as N", "3 May 2024"]
    assert home[-1] == ["Manganese", "not known", "", "", "", ""], "an odd one stands alone"
    assert {row[1] for row in barn[1:]} == {"not known"}, "its tap is behind treatment"


def test_a_figure_of_raw_water_is_told_with_its_fraction_and_how_it_was_drawn(farm):
    first, _flushed, *_copper, iron, _nitrate = farm.history.tests[2].results
    assert sizing._said(farm, first.result) == "12 µg/L, first draw"
    assert sizing._said(farm, iron.result) == "0.1 mg/L, dissolved"


def test_a_sheet_on_which_all_is_known_says_that_it_can_have_changed(consultant, monkeypatch):
    monkeypatch.setattr(sizing, "SIZING_INPUTS", ("nitrate", "ph"))
    log = {"flow": "6 gpm", "pressure": "40 psi", "people": "4", "pipe": "1 in", "drain": "yes",
           "power": "230 V"}  # fmt: skip
    (facts,) = consultant.history.wells
    known = changed(consultant, wells=(renamed(facts, construction=log),))
    assert prose(sizing.sizing(known))[-1] == (
        "Nothing on this sheet is unknown; all of it can have changed since."
    )
    assert prose(sizing.sizing(consultant))[-1].startswith("To find out before or at a visit: Flow")


def test_where_nothing_tested_comes_first_that_is_said_and_the_rest_names_what_to_find_out(
    consultant,
):
    (rows,) = tables(sizing.fit(consultant))
    nothing = "Nothing that was tested."
    first = {row[0]: row[2] for row in rows}
    assert nothing in first.values()
    assert first["Hardness"].startswith("For ion exchange softener find out: Turbidity.")
    assert all(one == nothing or one.startswith(("Before ", "For ")) for one in first.values())


def test_a_unit_is_told_with_its_settings_where_they_are_known(buyer):
    units = (
        TreatmentUnit(1, 1, "Softener", "ion exchange", 1, "2015-04", note="12 gpg"),
        TreatmentUnit(2, 1, "Lamp", "ultraviolet lamp", 2),
        TreatmentUnit(3, 1, "Old", "ultraviolet lamp", 3, removed="2019"),
    )
    facts = replace(buyer.history.wells[0], units=units)
    assert sizing._units(facts) == [
        ("Softener", "ion exchange, Apr 2015, 12 gpg"),
        ("Lamp", "ultraviolet lamp, settings not known"),
    ]


def test_a_well_is_told_with_its_address_and_what_it_replaces(buyer):
    (facts,) = buyer.history.wells
    old = renamed(facts, id=9, name="Old well")
    new = renamed(facts, replaces=9, address="4 Fen Road", coordinates="44.1, -72.5")
    said = [words(piece) for piece in wells.wells(changed(buyer, wells=(new, old)))]
    assert said[2][:4] == [
        ["Address", "4 Fen Road"], ["Coordinates", "44.1, -72.5"], ["Replaces", "Old well"],
        ["Depth", "185 ft"],
    ]  # fmt: skip
    bare = renamed(facts, construction={}, note="")
    assert "Nothing was entered about how the well was built: ask for its log." in prose(
        wells.wells(changed(buyer, wells=(bare,)))
    )


def test_a_lab_has_the_tests_it_was_given_and_those_it_ran_a_reading_of(buyer):
    first = buyer.history.tests[0]
    result = replace(first.results[0].result, lab="Hollin Labs")
    ran = replace(first, results=(replace(first.results[0], result=result), *first.results[1:]))
    tests = (ran, *buyer.history.tests[1:])
    lab = Lab(1, "Hollin Labs", "no. 4", "2001", "", "Closed since.")
    context = changed(buyer, tests=tests, labs=(lab, replace(lab, id=2, name="Larkspur Laboratory",
                                                             note="")))  # fmt: skip
    rows = tables(wells.labs(context))[0]
    assert [row[0] for row in rows] == ["1", "2"]
    assert wells._lab(lab, tests)[0] == "Hollin Labs\nClosed since."
    assert [row[4] for row in rows] == ["1", "4"]
    assert rows[1][1] == "Larkspur Laboratory"


def test_a_point_with_nothing_but_unknown_names_is_a_point_of_the_packet(farm):
    home, barn = farm.history.wells
    (shed,) = barn.overview.points
    strange = replace(shed, standings=(), sums=(), unknown=("Unobtainium", "Phlogiston"))
    facts = replace(barn, overview=replace(barn.overview, points=(strange,)))
    context = changed(farm, wells=(home, facts))
    assert [name for name, _point in at_a_glance.points_of(context)] == ["Home: Tap", "Barn: Tap"]
    said = prose(at_a_glance.summary(context))
    assert any(one.endswith("does not compare: Unobtainium, Phlogiston.") for one in said)
    facts = replace(barn, overview=replace(barn.overview, points=(replace(strange, unknown=()),)))
    assert len(at_a_glance.points_of(changed(farm, wells=(home, facts)))) == 1


def test_ages_at_a_sale_count_to_its_closing_day_and_promise_nothing(buyer):
    context = replace(buyer, closing=date(2019, 6, 1))
    story = fitness.lenders(context)
    assert prose(story)[1].startswith("Information, not a promise: lender, state and buyer decide")
    (asked, _ways, _distances, readers) = tables(story)
    assert [row[3] for row in asked if row[0] == "Nitrate"] == ["30 days"]
    fits = {row[0]: row[2] for row in readers}
    assert fits["Loan insured by FHA"].startswith(
        "Total coliform, Nitrate: young enough; not accepted."
    )


def test_of_two_readings_alike_of_one_day_the_first_stands(farm):
    first, second = farm.history.tests[2:]
    (nitrate,) = (one for one in first.results if one.result.parameter == "nitrate")
    tests = (replace(first, results=(nitrate,)), replace(second, results=(nitrate,)))
    latest = fitness._latest(changed(farm, tests=tests))
    assert [told["nitrate"][1:3] for told in latest.values()] == [("lab", "sale")]


def test_an_index_comes_from_the_latest_sample_of_its_own_point(catalogue, tmp_path):
    with household.new_book(tmp_path / "b.wellbook") as book:
        well = book.add_well("Home")
        for name in ("Tank", "Tap"):
            tap = book.add_point(well, name)
            for day, text in (("2023-05-03", "80"), ("2024-05-03", "40")):
                ions = {"calcium": text, "magnesium": "20", "iron": "0"}
                found = [household.result(k, k, ion, "mg/L") for k, ion in ions.items()]
                if name == "Tap":
                    found = found[2:]
                book.add_sample(household.sample(tap, day, *found))
        options = packet.PacketOptions("consultant")
        context = packet.gathered(book.record(), catalogue, TODAY, options)
    (rows,) = tables(readings.index_tables(context))
    (hardness,) = (row for row in rows if "ardness" in row[0])
    tests = {test.number: test for test in context.history.tests}
    assert {tests[int(row[2])].sample.collected.day for row in rows} == {date(2024, 5, 3)}
    # 2.497 mg/L as CaCO3 for each mg/L of calcium, 4.118 for magnesium: Standard Methods 2340 B.
    assert hardness[1] == "182 mg/L as CaCO3"
    assert all(row[4].endswith(".") and row[4][0].isupper() for row in rows)
    odd = tables(readings.plausibility(context))[0]
    assert hardness[4] == "Standard Methods 2340 B."
    assert {row[1] for row in odd if " is reported as 0." in row[2]} == {"note"}


def test_where_a_reading_stands_in_its_report_is_told_in_short(consultant):
    one = judged(consultant, place="page 2; line 7")
    test = consultant.history.tests[0]
    assert readings._reading(one, test, {})[-2:] == ["", "p. 2, l. 7"]
    assert readings._reading(one, test, {one.result.lab: 4})[-2] == "4"


def test_letters_of_a_lab_stand_with_what_they_mean(consultant):
    one = judged(consultant, qualifier="J")
    reading = replace(one.result.reading, flags=frozenset({Flag.ESTIMATED, Flag.DILUTED}))
    flagged = judged(consultant, qualifier="J", reading=reading)
    mute = judged(consultant, qualifier="", reading=reading)
    said = "31.9 mg/L as NO3"
    assert results.as_reported(one) == f"{said} (J)"
    assert results.as_reported(flagged) == f"{said} (J: diluted, estimated)"
    assert results.as_reported(mute) == f"{said} (diluted, estimated)"
    assert results.as_reported(judged(consultant)) == said


def test_costs_are_told_by_year_each_currency_on_its_own(buyer):
    years = (
        YearOfCosts(2024, "USD", {PaidFor.TESTS: Decimal("40.50"), PaidFor.UNITS: Decimal(9)}, 2),
        YearOfCosts(None, "CAD", {PaidFor.TESTS: Decimal(1)}, 1),
    )
    assert tables(wells.costs(changed(buyer, costs=years))) == [
        [
            ["2024", "49.50", "USD", "2", "tests 40.50, treatment units 9"],
            ["without a date", "1", "CAD", "1", "tests 1"],
        ]
    ]


def test_what_vouches_for_a_lab_here_follows_what_is_said_of_labs(buyer):
    said = prose(wells.labs(replace(buyer, labs_here="Ask the state.")))[1]
    assert said.endswith("confirm it for each method. Ask the state.")
    assert prose(wells.labs(replace(buyer, labs_here="")))[1].endswith("for each method.")


def test_columns_that_are_set_by_hand_fill_the_width_of_the_page(buyer):
    width = pytest.approx(buyer.width)
    head = at_a_glance.attention(buyer)[1]._content[0]
    wheel = charts.year_wheels(buyer)[2]
    for table in (at_a_glance.legend(buyer), head, wheel):
        assert sum(table._colWidths) == width
        assert min(table._colWidths) >= 18
    shares = at_a_glance.legend(buyer)._colWidths
    assert shares[0] > shares[3] > shares[6], "the longest words have the most room"
