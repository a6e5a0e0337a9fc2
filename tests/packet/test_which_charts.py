"""Which charts a packet shows, which points share one, and in what order they come."""

from dataclasses import replace

import household
import pytest
from packet_fixtures import TODAY, catalogue  # noqa: F401  a fixture

from wellbook.packet.charts import figures, wheels
from wellbook.packet.gather import gather
from wellbook.planning.settings import scheme
from wellbook.sharing.excerpt import LeftOut

DAYS = ("2019-05-02", "2021-05-02", "2023-05-02")
# What is printed, in mg/L; the limits of the EPA are 10, 0.010 (both of health), 0.3 (of taste).
PRINTED = {
    "close arsenic": ("arsenic", "Arsenic", "0.009"),
    "nitrate": ("nitrate", "Nitrate as N", "2.1"),
    "much nitrate": ("nitrate", "Nitrate as N", "15"),
    "boron": ("boron", "Boron", "0.02"),
    "iron": ("iron", "Iron", "0.9"),
    "arsenic": ("arsenic", "Arsenic", "0.030"),
    "some arsenic": ("arsenic", "Arsenic", "0.011"),
    "no arsenic": ("arsenic", "Arsenic", "<0.0005"),
}


@pytest.fixture
def drawn(tmp_path, catalogue):  # noqa: F811
    """The charts of a well whose points were tested so; a key with days of its own stands so."""

    def charts(points, *, technical=True):
        with household.new_book(tmp_path / "b.wellbook") as book:
            well = book.add_well("Home")
            for name, treated, tested in points:
                point = book.add_point(well, name, treated=treated)
                for what, days in tested.items():
                    key, printed, text = PRINTED[what]
                    for day in days:
                        basis = "as N" if key == "nitrate" else ""
                        one = household.result(key, printed, text, "mg/L", basis=basis)
                        book.add_sample(household.sample(point, day, one))
            record = book.record()
            history = gather(record, catalogue, TODAY, with_personal=False)
            by = scheme(record.settings)
            return figures(history, by, technical=technical), wheels(history, by)

    return charts


def titles(found):
    return [figure.title for figure in found[0]]


def test_the_water_before_treatment_shares_its_chart_with_the_water_after_it(drawn):
    nitrate = {"nitrate": DAYS}
    found = drawn(
        [("Tank", False, nitrate), ("Filter", True, nitrate), ("Tap", True, nitrate),
         ("Barn", False, nitrate)]
    )  # fmt: skip
    assert titles(found) == ["Nitrate: Tank and Tap", "Nitrate: Barn and Filter"]
    first, second = found[0]
    assert [key for _point, key in (*first.shows, *second.shows)] == ["nitrate"] * 4
    assert len({point for point, _key in (*first.shows, *second.shows)}) == 4
    assert len(first.chart.series) == 2
    assert first.key != second.key


def test_a_point_without_its_other_side_has_a_chart_alone(drawn):
    nitrate = {"nitrate": DAYS}
    raw = drawn([("Tank", False, nitrate), ("Barn", False, nitrate)])
    assert titles(raw) == ["Nitrate: Tank", "Nitrate: Barn"]


@pytest.mark.parametrize("after", [1, 2])
def test_one_test_alone_is_no_chart_but_stands_beside_the_history_of_the_other_side(drawn, after):
    one = {"nitrate": DAYS[:1]}
    tap = {"nitrate": DAYS[:after]}
    found = drawn([("Tank", False, one), ("Tap", True, tap)])
    assert titles(found) == (["Nitrate: Tank and Tap"] if after > 1 else [])


def test_a_buyer_sees_what_calls_for_attention_then_what_everybody_asks(drawn):
    tested = dict.fromkeys(("boron", "nitrate", "iron", "arsenic"), DAYS)
    for_a_buyer = titles(drawn([("Tank", False, tested)], technical=False))
    # Arsenic over its limit of health, iron over one of taste, nitrate because it is always asked.
    assert for_a_buyer == ["Arsenic: Tank", "Iron: Tank", "Nitrate: Tank"]


def test_what_can_harm_is_drawn_before_what_is_worse_for_taste(drawn):
    tested = dict.fromkeys(("iron", "close arsenic"), DAYS)
    assert titles(drawn([("Tank", False, tested)], technical=False)) == [
        "Arsenic: Tank",
        "Iron: Tank",
    ]


def test_what_rises_is_drawn_after_what_everybody_asks_and_without_a_limit_not_at_all(
    tmp_path,
    catalogue,  # noqa: F811
):
    """Barium, 2 mg/L (40 CFR 141.62), is nearer to its limit than nitrate."""
    with household.new_book(tmp_path / "b.wellbook") as book:
        tap = book.add_point(book.add_well("Home"), "Tap")
        for k in range(12):
            found = [household.result("barium", "Barium", f"{0.4 + k / 50:.2f}", "mg/L"),
                     household.result("boron", "Boron", f"{0.02 + k / 500:.3f}", "mg/L"),
                     household.result("nitrate", "N", "0.5", "mg/L", basis="as N")]  # fmt: skip
            book.add_sample(household.sample(tap, f"{2010 + k}-05-03", *found))
        record = book.record()
        history = gather(record, catalogue, TODAY, with_personal=False)
        settings = {"limit_sets": "us-epa-primary"}
        book.set_settings(settings)
        primary = gather(book.record(), catalogue, TODAY, with_personal=False)
    by = scheme(record.settings)
    shown = [figure.title for figure in figures(primary, by, technical=False)]
    assert shown == ["Nitrate: Tap", "Barium: Tap"]
    assert history.sets != primary.sets


def test_a_wheel_shows_when_the_next_test_is_due_but_not_of_a_part_or_for_people(
    tmp_path,
    catalogue,  # noqa: F811
):
    with household.new_book(tmp_path / "b.wellbook") as book:
        tap = book.add_point(book.add_well("Home"), "Tap")
        one = household.result("nitrate", "N", "0.5", "mg/L", basis="as N")
        book.add_sample(household.sample(tap, "2026-05-03", one))
        record = book.record()
        history = gather(record, catalogue, TODAY, with_personal=False)
    by = scheme(record.settings)
    (whole,) = wheels(history, by)
    assert whole.window is not None
    (part,) = wheels(replace(history, left_out=LeftOut(1, 2, 0, 0, 1, ("from 2024",), {})), by)
    assert part.window is None
    (facts,) = history.wells
    (point,) = facts.overview.points
    private = replace(point, due=tuple(replace(one, private=True) for one in point.due))
    overview = replace(facts.overview, points=(private,))
    (nobody,) = wheels(replace(history, wells=(replace(facts, overview=overview),)), by)
    assert nobody.window is None


def test_a_wheel_has_no_dot_for_a_day_that_is_not_known(tmp_path, catalogue):  # noqa: F811
    with household.new_book(tmp_path / "b.wellbook") as book:
        tap = book.add_point(book.add_well("Home"), "Tap")
        for day in ("2024", "2025-05", "2026-05-03"):
            one = household.result("nitrate", "N", "0.5", "mg/L", basis="as N")
            book.add_sample(household.sample(tap, day, one))
        record = book.record()
        history = gather(record, catalogue, TODAY, with_personal=False)
    (found,) = wheels(history, scheme(record.settings))
    assert [one.day.isoformat() for one in found.dots] == ["2026-05-03"]


def test_a_consultant_sees_every_history_the_unremarkable_last(drawn):
    tested = dict.fromkeys(("boron", "nitrate", "iron", "arsenic"), DAYS)
    for_a_consultant = titles(drawn([("Tank", False, tested)]))
    assert for_a_consultant == ["Arsenic: Tank", "Iron: Tank", "Nitrate: Tank", "Boron: Tank"]


@pytest.mark.parametrize(
    ("other", "after"),
    [("iron", "no arsenic"), ("much nitrate", "some arsenic")],
)
def test_a_chart_of_two_points_has_the_place_of_the_worse_one(drawn, other, after):
    points = [("Tank", False, {other: DAYS, "arsenic": DAYS}), ("Tap", True, {after: DAYS})]
    assert titles(drawn(points, technical=False))[0] == "Arsenic: Tank and Tap"


def test_two_histories_are_told_apart_by_the_names_of_their_points(drawn):
    nitrate = {"nitrate": [f"{year}-05-02" for year in range(2012, 2024)]}
    points = [("Tank", False, nitrate), ("Tap", True, nitrate), ("Shed", False, nitrate)]
    (both, alone), _wheels = drawn(points)
    assert [said.split(":")[0] for said in both.summary] == ["Tank", "Tap"]
    assert len(alone.summary) == 1
    assert not alone.summary[0].startswith("Shed")


def test_a_wheel_shows_each_point_that_was_tested_and_the_days_of_its_tests(drawn):
    _charts, found = drawn([("Tank", False, {"nitrate": DAYS}), ("Tap", True, {})])
    (wheel,) = found
    assert wheel.title == "Tank"
    assert [one.day.isoformat() for one in wheel.dots] == [*DAYS]


def test_wheels_of_two_wells_bear_the_names_of_both(tmp_path, catalogue):  # noqa: F811
    with household.new_book(tmp_path / "two.wellbook") as book:
        for name in ("Home", "Barn"):
            tap = book.add_point(book.add_well(name), "Tap")
            one = household.result("nitrate", "Nitrate", "4", "mg/L", basis="as N")
            book.add_sample(household.sample(tap, "2020-05-03", one))
        record = book.record()
        history = gather(record, catalogue, TODAY, with_personal=False)
        titles_of_wheels = [one.title for one in wheels(history, scheme(record.settings))]
    assert titles_of_wheels == ["Home: Tap", "Barn: Tap"]
