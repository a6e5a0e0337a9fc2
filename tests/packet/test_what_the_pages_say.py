"""What stands on the pages, cell by cell, as they are set; nothing is written on paper for that."""

from dataclasses import replace
from datetime import date

import pytest
from packet_fixtures import TODAY
from reportlab.platypus import KeepTogether, Paragraph, Table

from wellbook.packet import packet
from wellbook.packet.pages import at_a_glance, closing, fitness
from wellbook.pdf import style
from wellbook.pdf.flowables import Marked, PageNumber, Reference
from wellbook.support import paths
from wellbook.water.statistics.outcomes import Direction

WORDS = {
    Paragraph: lambda piece: piece.getPlainText(),
    Table: lambda piece: [[words(cell) for cell in row] for row in piece._cellvalues],
    Marked: lambda piece: piece._word,
    Reference: lambda piece: " ".join(label for _key, label in piece._links),
    PageNumber: lambda piece: f"{piece._label} [{piece._key}]".strip(),
    KeepTogether: lambda piece: words(piece._content),
    list: lambda piece: [words(one) for one in piece],
    str: lambda piece: piece,
}


def words(piece):
    """The words of a piece of a page; a table is a list of its rows."""
    return next((say(piece) for kind, say in WORDS.items() if isinstance(piece, kind)), "")


def tables(story):
    """The rows of every table of a story, without heads."""
    found = []
    for piece in story:
        if isinstance(piece, Table):
            found.append(words(piece)[1:])
        elif isinstance(piece, KeepTogether):
            found += tables(piece._content)
    return found


def prose(story):
    """The sentences of a story that stand in no table."""
    return [said for said in words(story) if isinstance(said, str) and said]


def renamed(facts, **more):
    """The facts of a well that differs in this."""
    well = replace(facts.well, **more)
    return replace(facts, overview=replace(facts.overview, well=well))


@pytest.fixture(scope="module")
def context(book, catalogue):
    style.register_fonts(paths.resources() / "fonts")
    return packet.gathered(book.record(), catalogue, TODAY, packet.PacketOptions("buyer"))


@pytest.fixture(scope="module")
def attention(context):
    """What needs attention; it numbers the limits, so it is set first, as in the packet."""
    return words(at_a_glance.attention(context))


def test_what_needs_attention_comes_by_urgency_each_with_its_day_and_chart(attention):
    heads = [case[0][0][1:] for case in attention[1:]]
    tank, chart = "Pressure tank, 2 May 2019", "chart: page [chart-1-{}]"
    assert heads == [
        ["E. coli: present", tank, ""],
        ["Nitrate: 11.4 mg/L as N", tank, chart.format("nitrate")],
        ["Nitrate + nitrite: 11.4 mg/L as N or more", tank, ""],
        ["Total coliform: >2419.6 MPN/100 mL", tank, chart.format("total_coliform")],
        ["Arsenic: <0.05 mg/L", "Pressure tank, 12 Sep 2012", chart.format("arsenic")],
        ["Manganese: 62 µg/L", tank, ""],
        ["pH: 6.1 pH units", tank, ""],
    ]


RULES = "US EPA primary drinking water rules"
FLOODED = "Between the two: The creek stood over the cap, 20 Apr 2019."
AFTER_THE_FLOOD = f"Outside a limit for the first time. {FLOODED}"


@pytest.mark.parametrize(
    ("place", "said"),
    [
        # 40 CFR 141.63 (2016 on), 141.62(b): nitrate 10 mg/L as N; 143.3: pH 6.5 to 8.5.
        (1, f"""Present where it must be absent. Limit: must be absent (health; {RULES},
             since 1 Apr 2016) [1]."""),
        (2, f"""Over the limit. Limit: up to 10 mg/L as N (health; {RULES}, since 30 Jul 1992) [2].
             Up by 2.8 mg/L as N since 12 Sep 2012, too few earlier tests to say whether that is
             much. {AFTER_THE_FLOOD}"""),
        (4, f"""Present where it must be absent. Limit: must be absent (action level; {RULES},
             since 1 Apr 2016) [4].
             Found for the first time; not detected on 3 May 2004 and before. {AFTER_THE_FLOOD}"""),
        (5, f"""Can’t be told. Limit: up to 0.010 mg/L (health; {RULES}, since 23 Jan 2006) [5].
             Not found, but the lab could see it only from 0.05 mg/L on, which is above the limit
             of 0.010 mg/L.
             Only bounds are known, so whether it changed since 3 May 2004 can’t be told. The limit
             moved from 0.05 mg/L to 0.010 mg/L."""),
        (7, """Below the range. Limit: 6.5 to 8.5 pH units (taste, look and stains; US EPA
             secondary levels, since 19 Jan 1981) [7]."""),
    ],
)  # fmt: skip
def test_each_case_says_verdict_limit_and_what_changed_then_why_it_matters(attention, place, said):
    *sentences, why = attention[place][1:-1]
    assert " ".join(sentences) == " ".join(said.split())
    assert why


def test_every_parameter_has_a_line_with_both_verdicts(context, attention):
    raw, sums, tap = tables(at_a_glance.summary(context))[1:] if attention else ()
    may = "2 May 2019"
    assert raw == [
        ["Total coliform", "2", "", ">2419.6 MPN/100 mL", may, "present", "present", "[4]",
         "[chart-1-total_coliform]"],
        ["E. coli", "1", "", "present", may, "present", "present", "[1]", ""],
        ["Nitrate", "3", "", "11.4 mg/L as N", may, "over", "over", "[2]", "[chart-1-nitrate]"],
        ["Arsenic", "2", "", "<0.05 mg/L", "12 Sep 2012", "can’t be told", "can’t be told", "[5]",
         "[chart-1-arsenic]"],
        ["Iron", "1", "", "0.24 mg/L", "3 May 2004", "within", "within", "[8]", ""],
        ["Manganese", "1", "", "62 µg/L", may, "over", "over", "[6]", ""],
        ["pH", "1", "", "6.1 pH units", may, "too low", "too low", "[7]", ""],
        ["Hardness", "1", "", "14.2 gpg", "12 Sep 2012", "no limit", "no limit", "–", ""],
    ]  # fmt: skip
    assert sums == [["Nitrate + nitrite", "11.4 mg/L as N or more", may, "over", "over", "[3]"]]
    assert tap == [
        ["pH", "1", "", "7.0 pH units", may, "within", "within", "[7]", ""],
        ["Hardness", "1", "", "<1 gpg", may, "no limit", "no limit", "–", ""],
    ]
    said = prose(at_a_glance.summary(context))
    assert "Pressure tank (before treatment)" in said
    assert "Kitchen tap (after treatment)" in said
    assert sum("Unobtainium." in sentence for sentence in said) == 1


def test_the_legend_explains_each_mark(context):
    (marks,) = words(at_a_glance.legend(context))
    assert marks == [
        "over, off the range, or present", "can’t be told", "over a limit to come",
        "within, but close", "within the limit", "not detected", "no limit",
    ]  # fmt: skip


def test_a_trend_is_a_word_only_where_one_was_found(context):
    standing = context.history.wells[0].overview.points[0].standings[0]
    for says, word in ((Direction.RISING, "rising"), (Direction.FEW, "")):
        trend = replace(standing.trend, says=says)
        assert at_a_glance._way(trend) == word


AGES = [
    ["Bacteria", "2 May 2019", "7 years and 6 months", "owner", "after an event"],
    ["Nitrate", "2 May 2019", "7 years and 6 months", "owner", "after an event"],
    ["Metals", "3 May 2004", "22 years and 6 months", "owner", ""],
    ["Arsenic", "12 Sep 2012", "14 years and 2 months", "owner", ""],
    ["After a flood or repair", "2 May 2019", "7 years and 6 months", "owner", "after an event"],
    ["Septic system nearby", "2 May 2019", "7 years and 6 months", "owner", "after an event"],
]


def test_a_group_is_as_old_as_the_oldest_of_what_it_can_t_do_without(context):
    assert tables(fitness.ages(context)) == [AGES]
    assert "Ages on 25 Nov 2026, the day of this packet" in prose(fitness.ages(context))[1]


@pytest.mark.parametrize(
    ("closing_day", "age"),
    [("2019-05-01", "drawn later"), ("2019-05-02", "0 days"), ("2019-05-03", "1 day"),
     ("2020-05-02", "366 days"), ("2020-05-03", "12 months")],
)  # fmt: skip
def test_ages_are_days_up_to_a_year_and_count_to_the_closing_day(context, closing_day, age):
    at = replace(context, closing=date.fromisoformat(closing_day))
    assert tables(fitness.ages(at))[0][0][2] == age
    assert "the closing day" in prose(fitness.ages(at))[1]


def test_each_asked_test_has_its_row_what_was_not_tested_last(context):
    asked, ways, _distances, readers = tables(fitness.lenders(context))
    tank, old = "2 May 2019, Pressure tank", "7 years and 6 months"
    assert asked[:6] == [
        ["Total coliform", ">2419.6 MPN/100 mL", tank, old, "owner", "valid"],
        ["Nitrate", "11.4 mg/L as N", tank, old, "owner", "valid"],
        ["Arsenic", "<0.05 mg/L", "12 Sep 2012, Pressure tank", "14 years and 2 months", "owner",
         "valid"],
        ["Iron", "0.24 mg/L", "3 May 2004, Pressure tank", "22 years and 6 months", "owner",
         "not shown to be valid"],
        ["Manganese", "62 µg/L", tank, old, "owner", "valid"],
        ["pH", "6.1 pH units", tank, old, "owner", "valid"],
    ]  # fmt: skip
    assert [row[1:] for row in asked[6:]] == [["not tested", "", "", "", ""]] * len(asked[6:])
    unknown = ["owner", "not known", "not known", "Larkspur Laboratory"]
    assert ways == [
        ["2 May 2019, 06:40, Pressure tank", *unknown],
        ["12 Sep 2012, 07:15 (UTC−4:00), Pressure tank", *unknown],
        ["3 May 2004, Pressure tank", *unknown],
    ]
    fits = {row[0]: row[2] for row in readers}
    assert fits["Loan insured by FHA"].startswith(
        "Total coliform, Nitrate: too old, test again; not accepted."
    )
    assert fits["Sale of a house in New Jersey"].endswith(
        "Iron, Manganese, pH: ask for the age; not accepted.Lead: test it."
    )


def test_distances_and_flow_are_told_or_asked_for(context):
    distances = words(fitness._distances(context))
    assert [
        ["Tamarack Hill", "nothing written down: ask for a measured distance and flow"],
        ["Flow test", "none written down: ask for one, with day, hours and drawdown"],
    ] in distances
    (facts,) = context.history.wells
    log = {"Distance to septic": "120 ft", "rock": "granite", "yield": "6 gpm"}
    well = renamed(facts, construction=log)
    told = replace(context, history=replace(context.history, wells=(well,)))
    (rows,) = [one for one in words(fitness._distances(told)) if isinstance(one, list)]
    assert rows[0] == ["Tamarack Hill", "Distance to septic: 120 ft; yield: 6 gpm"]
    nothing = replace(context, history=replace(context.history, wells=()))
    assert fitness._distances(nothing) == []


def test_corrections_tell_what_was_before_and_after_and_what_was_struck_out(context):
    story = closing.corrections(context)
    reason = "The bottle was mixed up with a neighbour’s."
    changed, struck = tables(story)
    assert changed == [
        ["1 Nov 2026", "Test 5", "struck out because: empty", f"struck out because: {reason}",
         reason],
        ["1 Nov 2026", "Iron in test 1", "reading: 0.42", "reading: 0.24", "Digits were swapped."],
    ]  # fmt: skip
    assert struck == [["Nitrate-N", "77.7 mg/L as N", "", "", "over", "over", "[2]"]]
    assert f"Test 5 was struck out because: {reason}" in prose(story)


@pytest.mark.parametrize("from_packets", [False, True])
def test_where_nothing_was_corrected_that_is_said(context, from_packets):
    sources = ("somebody",) if from_packets else ()
    history = replace(context.history, corrections=(), struck=(), sources=sources)
    said = prose(closing.corrections(replace(context, history=history)))
    assert said[1].startswith("No test and no reading was changed after it was entered")
    assert ("neither in this book nor" in said[1]) is from_packets
    assert said[2:] == ["No test was struck out."]


def test_what_was_never_tested_is_all_that_no_test_of_the_well_holds(context):
    (rows,) = tables(closing.never_tested(context))
    catalogue = context.history.catalogue
    tested = {one.result.parameter for test in context.history.tests for one in test.results}
    names = {catalogue.parameters[key].name for key in tested if key}
    last = {group: when for group, when, _missing in rows}
    for group, _when, missing in rows:
        assert missing
        assert not {*missing.split(", ")} & names, group
    assert (last["Bacteria"], last["Radon"], last["General minerals"]) == (
        "2 May 2019", "never", "in part",
    )  # fmt: skip
    assert last["Metals"] == "3 May 2004", "iron, the oldest of what it can't do without"
    shown = {group: missing for group, _when, missing in rows}
    for panel in catalogue.panels.values():
        known = [catalogue.parameters[key] for key in (*panel.core, *panel.also)]
        lacks = [one.name for one in known if one.key not in tested and one.family != "corrosion"]
        assert shown.get(panel.name, "") == ", ".join(lacks)
    assert not any("left tests out" in said for said in prose(closing.never_tested(context)))


def test_two_wells_have_their_own_gaps_and_no_well_has_them_all(context):
    (facts,) = context.history.wells
    other = renamed(facts, id=9, name="Barn")
    two = replace(context, history=replace(context.history, wells=(facts, other)))
    said = prose(closing.never_tested(two))
    assert ("Tamarack Hill" in said, "Barn" in said) == (True, True)
    assert len(tables(closing.never_tested(two))) == 2
    none = replace(context, history=replace(context.history, wells=()))
    assert {when for _group, when, _missing in tables(closing.never_tested(none))[0]} == {"never"}
