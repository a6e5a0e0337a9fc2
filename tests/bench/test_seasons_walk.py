"""How soon a household that follows the plan, late now and then, has met every season.

Three hundred made-up households test for 30 years. Each looks two months ahead, draws on the
suggested day, or up to two months late every third time, on the next day that can be shipped. The
same delays befall a household that tests every twelve months without a plan. The fewest tests
that can meet four seasons are worked out by trying every step that the grace allows. Run with
`pytest -m bench tests/bench/test_seasons_walk.py`; it prints its table and draws
`tests/bench/out/seasons-walk.png`.
"""

import random
import sys
from datetime import date, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from wellbook.support.paths import resources
from wellbook.water.sampling.intervals import panel_due
from wellbook.water.sampling.lab_calendar import Calendar
from wellbook.water.sampling.shipping import Hours, LabHours, Parcel
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.seasons import MONTHS, NORTHERN, add_months, season_of

pytestmark = pytest.mark.bench
CATALOGUE = read_catalogue(resources())
ZONE = ZoneInfo("America/New_York")
WAY = Calendar(
    Hours(ZONE), Parcel(ZONE, time(17), time(10, 30)), LabHours(ZONE, time(13), time(15))
)
OUT = Path(__file__).parent / "out"
HOUSEHOLDS, YEARS = 300, 30
PANELS = (("bacteria", 12), ("minerals", 14), ("lead_copper", 36), ("metals", 60))
GRACES = (1, 1, 3, 3)  # months either side that the plan allows itself
AHEAD = timedelta(days=60)


def delays(seed):
    """Days by which each test is late: none mostly, up to two months every third time."""
    chance = random.Random(seed)
    while True:
        yield chance.randint(1, 60) if chance.random() < 1 / 3 else 0


def shippable(day):
    return WAY.first_day(day, day + timedelta(days=30))


def first_day(seed):
    return shippable(
        date(2000, 1, 1) + timedelta(days=random.Random(f"{seed} first").randint(0, 364))
    )


def by_the_plan(panel, months, seed):
    days = [first_day(seed)]
    late = delays(seed)
    end = add_months(days[0], YEARS * 12)
    while days[-1] < end:
        today = max(add_months(days[-1], months) - AHEAD, days[-1])
        tested = dict.fromkeys(panel.core, days)
        found = panel_due(panel, months, tested, today, NORTHERN, WAY)
        days.append(shippable(found.day + timedelta(days=next(late))))
    return days[:-1]


def every_year(seed):
    start = first_day(seed)
    late = delays(seed)
    next(late)
    due = [add_months(start, 12 * year) for year in range(1, YEARS)]
    return [start, *(shippable(day + timedelta(days=next(late))) for day in due)]


def needed(days):
    """Tests until all four seasons were met; None if they never were."""
    seen = set()
    for n, day in enumerate(days, 1):
        seen.add(season_of(day, NORTHERN))
        if len(seen) == 4:
            return n
    return None


def shares(walks):
    counts = [needed(days) for days in walks]
    return [sum(n is not None and n <= k for n in counts) / len(counts) for k in range(1, 16)]


def fewest(month, months, grace):
    """The least number of tests that can meet four seasons, from one in a month (0 to 11)."""
    seasons = [season.key for season in NORTHERN.of_month]
    reached, n = {(month, frozenset({seasons[month]}))}, 1
    while all(len(seen) < 4 for _, seen in reached):
        n += 1
        steps = range(months - grace, months + grace + 1)
        landed = {((at + step) % 12, seen) for at, seen in reached for step in steps}
        reached = {(at, seen | {seasons[at]}) for at, seen in landed}
    return n


def beyond(walks, months, grace):
    """How many tests more than the fewest each household needed; many if it never met them."""
    more = [(needed(days) or 99) - fewest(days[0].month - 1, months, grace) for days in walks]
    return sorted(more)


def say(name, walks, more):
    counts = [needed(days) for days in walks]
    met = sum(len({day.month for day in days}) for days in walks) / len(walks)
    never = sum(n is None for n in counts)
    known = sorted(n for n in counts if n)
    middle = known[len(known) // 2] if known else "-"
    sys.stdout.write(
        f"{name:36} n={len(walks)} tests={len(walks[0])} middle={middle} never={never} "
        f"months met={met:.1f} fewest: {sum(m <= 0 for m in more) / len(more):.0%}, "
        f"one more: {sum(m <= 1 for m in more) / len(more):.0%}, "
        f"two more: {sum(m <= 2 for m in more) / len(more):.0%}\n"
    )


def test_following_the_plan_meets_every_season_with_the_fewest_tests():
    rows = {}
    for (key, months), grace in zip(PANELS, GRACES, strict=True):
        walks = [by_the_plan(CATALOGUE.panels[key], months, seed) for seed in range(HOUSEHOLDS)]
        name = f"{key}, by the plan, {months} months"
        rows[name] = walks
        more = beyond(walks, months, grace)
        say(name, walks, more)
        assert more[len(more) // 2] <= 0  # half and more need the fewest, for all their delays
        assert more[len(more) * 9 // 10] <= 3
        assert sum(needed(days) is None for days in walks) <= 0.02 * HOUSEHOLDS
    walks = [every_year(seed) for seed in range(HOUSEHOLDS)]
    say("every 12 months, no plan", walks, beyond(walks, 12, 1))
    rows["every 12 months, no plan"] = walks
    draw(rows)


def draw(rows):
    from matplotlib.figure import Figure

    figure = Figure(figsize=(11, 5), layout="constrained")
    years, curve = figure.subplots(1, 2, width_ratios=(3, 2))
    shown = (("minerals, by the plan, 14 months", "o"), ("every 12 months, no plan", "x"))
    for name, mark in shown:
        days = rows[name][7]
        years.plot(
            [day.year + (day.timetuple().tm_yday - 1) / 365 for day in days],
            [day.month + (day.day - 1) / 31 for day in days],
            mark, color="black", mfc="none", label=f"{name} ({len(days)} tests)",
        )  # fmt: skip
    for start, name in ((3, "spring"), (9, "autumn")):
        years.axhspan(start, start + 3, color="0.92", zorder=0)
        years.text(2031.5, start + 1.5, name, ha="right", va="center", color="0.4")
    years.set_yticks([month + 0.5 for month in range(1, 13)], [name[:3] for name in MONTHS])
    years.set_ylim(1, 13)
    years.set_xlim(1999, 2032)
    years.set_title("One household, thirty years", loc="left")
    years.legend(loc="upper center", bbox_to_anchor=(0.5, -0.08), ncols=2, frameon=False)
    for (name, walks), style in zip(rows.items(), ("--", "-", "-.", ":", (0, (1, 4))), strict=True):
        curve.plot(range(1, 16), shares(walks), linestyle=style, color="black", label=name)
    curve.set_xlabel("tests")
    curve.set_ylabel(f"share of {HOUSEHOLDS} households that met all four seasons")
    curve.set_ylim(0, 1.02)
    curve.set_title("How soon every season was met", loc="left")
    curve.legend(
        loc="upper center", bbox_to_anchor=(0.5, -0.12), ncols=2, frameon=False, fontsize=7
    )
    OUT.mkdir(exist_ok=True)
    figure.savefig(OUT / "seasons-walk.png", dpi=110)
