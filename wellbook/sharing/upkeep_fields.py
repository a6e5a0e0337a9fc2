"""The fields of upkeep and of money, declared once; see `record_fields`."""

from wellbook.book.rows import Expense, InspectionAnswer, UpkeepInterval
from wellbook.sharing.fields import Field, Table
from wellbook.support.translation import N_

COST = (
    Field(
        "cost",
        "What it cost (personal)",
        "see the column currency",
        label=N_("cost"),
        is_personal=True,
        since=2,
    ),
    Field(
        "currency",
        "Currency of the cost (personal)",
        "ISO 4217",
        label=N_("currency"),
        is_personal=True,
        since=2,
    ),
)
FLOW = (
    Field("flow", "Flow test: how much the well gave", "see the next column",
          label=N_("flow"), since=2),
    Field("flow_unit", "Unit of the flow: gal/min (US) or L/min", label=N_("unit of the flow"),
          since=2),
    Field("hours", "Flow test: how long it was pumped", "hours", label=N_("hours"), since=2),
    Field("drawdown", "Flow test: by how much the water level fell", "see the next column",
          label=N_("drawdown"), since=2),
    Field("drawdown_unit", "Unit of the drawdown: ft or m", label=N_("unit of the drawdown"),
          since=2),
    Field("done_by", "Who did it, in the household's words", label=N_("done by"), is_free=True,
          since=2),
)  # fmt: skip
METER = Field(
    "meter",
    "What the unit's meter showed",
    "with its measure: gal (US), L, m³ or h",
    label=N_("meter"),
    since=2,
)
EXPENSES = Table(
    "expense",
    "costs.csv",
    N_("One row for each other cost of water (personal)"),
    (
        Field("expense", "Number of the cost", at="id", is_number=True),
        Field("well", "Number of the well", is_number=True),
        Field("day", "Day, month or year", "ISO 8601", label=N_("day"), since=2),
        Field("kind", "What was paid for", label=N_("kind"), since=2),
        *COST,
        Field("text", "The household's words", label=N_("text"), is_free=True, since=2),
    ),
    Expense,
)
INTERVALS = Table(
    "upkeep_interval",
    "upkeep.csv",
    N_("One row for each interval of upkeep that the household set itself"),
    (
        Field("interval", "Number of the interval", at="id", is_number=True),
        Field("well", "Number of the well", is_number=True),
        Field(
            "unit",
            "Number of the treatment unit; empty for a task of the well itself",
            is_number=True,
        ),
        Field("task", "Key of the task", since=2),
        Field(
            "months",
            "Time between two services, 0 for never",
            "calendar months",
            label=N_("months"),
            since=2,
        ),
        Field(
            "reason",
            "Why this interval, in the household's words",
            label=N_("reason"),
            is_free=True,
            since=2,
        ),
        Field(
            "use",
            "What it lasts for, whichever comes first",
            "with its measure: gal (US), L, m³ or h",
            label=N_("lasts for"),
            since=2,
        ),
        Field(
            "a_day",
            "How much of that is used in a day",
            "with its measure: gal (US), L, m³ or h",
            label=N_("used a day"),
            since=2,
        ),
    ),
    UpkeepInterval,
)
ANSWERS = Table(
    "inspection_answer",
    "inspections.csv",
    N_("One row for each line of the checklist that was answered at an inspection"),
    (
        Field("answer", "Number of the answer", at="id", is_number=True),
        Field("event", "Number of the inspection among the events", is_number=True),
        Field("item", "Key of the line of the checklist", since=2),
        Field("seen", "good, bad or not seen", at="answer", label=N_("seen"), since=2),
        Field("text", "The household's words", label=N_("text"), is_free=True, since=2),
        Field(
            "mended",
            "Day, month or year when what was bad was put right; empty while it is not",
            "ISO 8601",
            label=N_("put right"),
            since=2,
        ),
    ),
    InspectionAnswer,
)
