"""What is said beside a verdict, and when nothing is said. Common practice, no source."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from alone import then_and_now

from wellbook.support.message import message
from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.caveats import not_comparable
from wellbook.water.verdicts.judge import Verdict, judge, to_come
from wellbook.water.verdicts.reasons import Reason
from wellbook.wording.reasons import reason, why

CATALOGUE = read_catalogue(resources())
US = ("us-epa-primary",)
DAY = date(2024, 5, 1)


def limit(kind=LimitKind.HEALTH, **more):
    fields = {
        "set": US[0], "parameter": "copper", "kind": kind, "rule": Rule.MAX, "low": None,
        "high": Decimal("1.3"), "unit": "mg/L", "basis": "", "fraction": "", "condition": "",
        "start": "1992-12-07", "end": "", "source": "made up", "where": "", "checked": False,
        "note": "",
    }  # fmt: skip
    return Limit(**(fields | more))


def result(text, draw="", **printed):
    reading = read_reading(text, unit="mg/L", **printed)
    return Result(1, 1, "copper", "Copper", reading, LocalTime(DAY), 1, draw=draw)


def told(held, text, draw="", **printed):
    got = judge(result(text, draw, **printed), held, CATALOGUE.parameters["copper"], beside=())
    return got.verdict, why(got)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("0.5", ""),
        ("<0.5", ""),
        ("absent", ""),
        ("not tested", "It was not analysed."),
        (" see note ", "The result “see note” was not understood."),
        ("5 R", "The lab rejected this result."),
    ],
)
def test_a_reading_is_unfit_for_a_stated_reason(text, said):
    found = not_comparable(read_reading(text))
    assert (reason(found) if found else "") == said


@pytest.mark.parametrize(
    ("text", "qualifier", "expected"),
    [
        ("0.5", "", (Verdict.WITHIN, "")),
        ("<0.5", "", (Verdict.UNDETECTED, "")),
        ("<0.5", "E", (Verdict.UNDETECTED, "")),
        ("0.5", "J", (Verdict.WITHIN, "")),
        ("<0.5", "J", (Verdict.UNDETECTED, "The reporting limit itself is an estimate.")),
        ("0.5", "B", (Verdict.WITHIN, "The lab also found it in its blank.")),
        ("<0.5", "B", (Verdict.UNDETECTED, "")),
        ("0.5", "D", (Verdict.WITHIN, "")),
        ("2", "E", (Verdict.OUTSIDE, "")),
        (
            "0.5",
            "H",
            (Verdict.WITHIN, "The lab held the sample longer than its method allows."),
        ),
        (
            "0.5",
            "E",
            (
                Verdict.UNDECIDABLE,
                "The lab flags it as above its calibrated range; it may be more.",
            ),
        ),
    ],
)
def test_a_flag_says_what_it_says_and_no_more(text, qualifier, expected):
    assert told(limit(), text, qualifier=qualifier) == expected


ACTION = limit(LimitKind.ACTION, condition="first draw")
NAMED = "An action level for public supplies, not a maximum."


@pytest.mark.parametrize(
    ("held", "text", "draw", "expected"),
    [
        (ACTION, "2", "first draw", (Verdict.OUTSIDE, NAMED)),
        (ACTION, "1", "first draw", (Verdict.WITHIN, "")),
        (limit(LimitKind.ACTION), "2", "", (Verdict.OUTSIDE, "")),
        (limit(), "2", "", (Verdict.OUTSIDE, "")),
        (
            limit(condition="yearly mean"),
            "2",
            "",
            (Verdict.OUTSIDE, "The limit carries a condition: yearly mean."),
        ),
        (
            limit(condition="yearly mean"),
            "1",
            "",
            (Verdict.WITHIN, "The limit carries a condition: yearly mean."),
        ),
        (limit(condition="dissolved"), "1", "", (Verdict.WITHIN, "")),
    ],
)
def test_an_action_level_is_named_as_such_and_a_condition_is_told(held, text, draw, expected):
    assert told(held, text, draw) == expected


@pytest.mark.parametrize(
    ("start", "today", "said"),
    [
        ("", date(2026, 11, 25), True),
        ("", DAY, False),
        ("1992-12-07", date(2026, 11, 25), False),
    ],
)
def test_an_unknown_start_is_told_of_an_earlier_day_only(start, today, said):
    catalogue = replace(CATALOGUE, _limits_of={"copper": (limit(start=start),)})
    then, now = then_and_now(result("0.5"), catalogue, US, today)
    assert (why(then) == "Since when this limit holds is not known.") is said
    assert bool(why(then)) is said
    assert why(now) == ""


def test_nothing_is_said_of_the_start_of_no_limit():
    catalogue = replace(CATALOGUE, _limits_of={})
    then, now = then_and_now(result("0.5"), catalogue, US, date(2026, 11, 25))
    assert (then.verdict, why(then), why(now)) == (Verdict.NO_LIMIT, "", "")


@pytest.mark.parametrize(
    ("start", "comes"),
    [
        ("2026-11-24", False),
        ("2026-11-25", False),
        ("2026-11-26", True),
        ("2027", True),
        ("2026-12", True),
        ("2026", False),
    ],
)
def test_a_limit_is_to_come_from_the_day_before_its_first(start, comes):
    catalogue = replace(CATALOGUE, _limits_of={"copper": (limit(start=start),)})
    assert bool(to_come("copper", catalogue, US, date(2026, 11, 25))) is comes


EVERYTHING = {
    "result": "x", "least": Decimal(1), "limit": Decimal(2), "low": Decimal(3), "high": Decimal(4),
    "unit": "mg/L", "figure": Decimal(5), "bases": ("as N", "as NO3"), "parameter": "Nitrate",
    "told": (("as N", Decimal(5), "mg/L as N"),), "hours": 31.4, "condition": "with metabolites",
    "n": 2, "most": Decimal(2), "parts": ("Nitrate", "Nitrite"), "sets": ("Ours",), "date": "2019",
}  # fmt: skip


@pytest.mark.parametrize("code", Reason)
def test_every_reason_has_a_sentence_for_its_code(code):
    said = reason(message(code, **EVERYTHING))
    assert said.endswith(".")
    assert "{" not in said
