"""Page one answers what a reader asks first; what it says is read against the book."""

import household
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from packet_fixtures import TODAY
from reading import pages_of
from reportlab.platypus import Paragraph

from wellbook.packet.answers import answer, unknowns
from wellbook.packet.gather import gather
from wellbook.packet.pages import advice, cover
from wellbook.pdf import style
from wellbook.pdf.sealing import marks
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.verdicts.judge import Verdict

CATALOGUE = read_catalogue(paths.resources())


@pytest.fixture(scope="module")
def words_of(household_packets):
    """The words of each page of a sample household's packet."""

    def of(name, audience="buyer"):
        path = household_packets(name, audience)
        pages = pages_of(path)
        assert marks(path.read_bytes()).code in pages[0], "the code stands on page 1"
        return pages

    return of


@pytest.fixture
def first_page(words_of):
    return lambda name: words_of(name)[0]


def test_the_worst_of_the_history_is_a_sentence_on_page_one(first_page):
    said = first_page("alder-hollow")
    assert "E. coli 4.2 MPN/100 mL found on 27 Jul 2021" in said
    assert "Before it: flood" in said
    assert "After it: disinfection" in said
    assert "Since then none were found in 7 tests there, the last on 7 Oct 2025." in said
    assert "13 months" in said, "the age of the newest test"


def test_health_stands_before_taste_and_a_limit_in_the_unit_of_its_result(first_page):
    said = first_page("first-year")
    order = [said.index(word) for word in ("Arsenic,", "Lead,", "Copper,", "Iron,")]
    assert order == sorted(order)
    assert "Lead, Kitchen tap, first draw: 18.30 µg/L" in said
    assert "up to 15 µg/L, published as 0.015 mg/L" in said
    assert "no result is over a limit for health" not in said


def test_a_consultant_finds_the_sizing_sheet_first_and_what_is_not_known_on_it(words_of):
    pages = words_of("alder-hollow", "consultant")
    place = next(n for n, said in enumerate(pages) if "“Not known” is a question" in said)
    assert place < next(n for n, said in enumerate(pages) if "Usual cautions" in said and n > 2)
    sheet = pages[place] + pages[place + 1]
    for said in (
        "Calcium 77.6 mg/L, total 7 Oct 2025",
        "0.283 mg/L, total 0.197 mg/L, dissolved",
        "Hydrogen sulfide * not known",
        "Pressure, on and off not known",
        "To find out before or at a visit: Bicarbonate",
    ):
        assert said in sheet


def test_a_lender_finds_a_row_for_each_asked_parameter_the_first_draw_before_the_flushed(words_of):
    said = " ".join(words_of("alder-hollow"))
    lender = said[said.index("What is usually asked at a sale Information") :]
    assert (
        "Lead 4.1 ug/L, first draw 18 Sep 2018, Kitchen tap 8 years and 2 months owner valid"
        in lender
    )
    assert "Total coliform <1.0 MPN/100 mL 7 Oct 2025" in lender
    assert "From the tap to the lab" in lender
    assert "18 Sep 2018, 06:10, Kitchen tap owner not known 19 Sep 2018, 09:40" in lender
    assert "Distances and flow Alder Hollow yield: 8 gpm" in lender
    assert "up to 150 days Total coliform, Nitrate, Nitrite, Lead: too old, test again" in lender
    assert "6,4" not in lender[:2000], "no age in thousands of days"


def history(path, rows, events=()):
    with household.new_book(path) as book:
        well = book.add_well("Home")
        tap = book.add_point(well, "Kitchen tap")
        for kind, day in events:
            book.add_event(well, kind, day)
        for day, *results in rows:
            book.add_sample(household.sample(tap, day, *results))
        return gather(book.record(), CATALOGUE, TODAY, with_personal=False)


def coli(text):
    return household.result("e_coli", "E. coli", text, "MPN/100 mL")


def test_a_finding_without_a_later_test_is_not_said_to_have_ended(tmp_path):
    (said,) = answer.happened(history(tmp_path / "o.wellbook", [("2021-07-20", coli("4.2"))]))
    assert "4.2 MPN/100 mL found on 20 Jul 2021" in said
    assert said.endswith("No test since has shown that it ended.")


def test_what_was_never_tested_is_a_row_and_asked_for(tmp_path):
    seen = history(tmp_path / "o.wellbook", [("2021-07-20", coli("absent"))])
    absent = [row.name for row in answer.rows(seen) if row.judgement is None]
    assert absent == ["Nitrate", "Lead", "Arsenic"]
    assert any("Nitrate, Lead, Arsenic" in said for said in unknowns.to_ask(seen))


@settings(max_examples=15, deadline=None)
@given(
    st.lists(st.sampled_from(["absent", "1", "4.2", "present", ">200.5"]), min_size=1, max_size=5)
)
def test_every_finding_of_bacteria_has_its_sentence_with_its_day(tmp_path_factory, texts):
    path = tmp_path_factory.mktemp("b") / "o.wellbook"
    rows = [(f"20{10 + place}-05-03", coli(text)) for place, text in enumerate(texts)]
    seen = history(path, rows)
    said = " ".join(answer.happened(seen))
    for (day, _result), text in zip(rows, texts, strict=True):
        assert (f"found on 3 May {day[:4]}" in said) is (text != "absent")
    if texts[-1] != "absent":
        assert "No test since has shown that it ended." in said
        assert any(
            health and verdict is Verdict.OUTSIDE
            for verdict, health, _said in answer.standings(seen)
        )


def metal(key, text):
    return household.result(key, key.capitalize(), text, "mg/L", fraction="total")


@pytest.mark.parametrize(
    ("results", "is_calm"),
    [
        ([metal("lead", "<0.001"), coli("absent")], True),
        ([metal("lead", "<0.001"), coli("absent"), metal("iron", "0.9")], True),  # only of taste
        ([metal("lead", "0.031"), coli("absent")], False),
        ([metal("lead", "<0.05"), coli("absent")], False),  # the lab could not see low enough
        ([metal("arsenic", "0.030"), metal("iron", "0.9")], False),
        ([metal("lead", "<0.001"), coli("2")], False),
    ],
)
def test_nothing_over_a_limit_for_health_is_said_only_where_all_of_that_was_decided(
    tmp_path, results, is_calm
):
    # EPA: lead 0.015 mg/L (action), arsenic 0.010, no E. coli; iron 0.3 mg/L is one of taste.
    style.register_fonts(paths.resources() / "fonts")
    seen = history(tmp_path / "o.wellbook", [("2026-07-20", *results)])
    story = cover.headline(seen, cover.faces())
    said = " ".join(one.getPlainText() for one in story if isinstance(one, Paragraph))
    assert ("no result is over a limit for health" in said) is is_calm


def test_what_was_once_over_a_limit_for_health_is_told_though_its_latest_test_is_not(tmp_path):
    rows = [("2010-05-03", metal("arsenic", "0.030"), metal("iron", "0.9")),
            ("2020-05-03", metal("arsenic", "<0.001"), metal("iron", "<0.05"))]  # fmt: skip
    (said,) = answer.happened(history(tmp_path / "o.wellbook", rows))
    assert "Arsenic" in said
    assert "3 May 2010" in said
    assert answer.happened(history(tmp_path / "p.wellbook", rows[1:])) == []


@pytest.mark.parametrize(
    ("results", "situations"),
    [
        ([metal("iron", "<0.05"), coli("absent")], []),
        ([metal("iron", "0.9"), coli("absent")], ["wellhead"]),
        ([coli("3")], ["bacteria_found", "disinfection", "wellhead"]),
    ],
)
def test_a_finding_brings_the_cautions_of_its_moment(tmp_path, results, situations):
    seen = history(tmp_path / "o.wellbook", [("2026-07-20", *results)])
    (point,) = seen.wells[0].overview.points
    assert advice._situations(point) == situations


def test_events_about_people_are_counted_where_they_are_left_out(tmp_path):
    events = [("flood", "2020-01-02"), ("birth", "2021-01-02"), ("illness", "2022-01-02")]
    (facts,) = history(tmp_path / "o.wellbook", [], events).wells
    assert ([event.kind for event in facts.events], facts.private_events) == (["flood"], 2)
