"""The days and times of one file, read by the one order of day and month that the file proves."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from wellbook.intake.draft import NO_DAY, ORDER_ASKED, ORDER_ASSUMED
from wellbook.intake.files.sheets import Sheet
from wellbook.intake.tables.tables import Table
from wellbook.intake.words import dates
from wellbook.intake.words.dates import Order, Printed
from wellbook.intake.words.log import Trouble
from wellbook.intake.words.preamble import only_day
from wellbook.intake.words.roles import Role
from wellbook.support.translation import N_, _
from wellbook.water.values.findings import Severity
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.partial_date import PartialDate
from wellbook.wording import dates as dates_in_words

Cells = Mapping[Role, str]
Read = tuple[LocalTime | None, tuple[Trouble, ...]]
_ADVICE = N_(
    "“{text}” can be {first} or {second}, and nothing in the file tells which: say whether its "
    "dates put the day or the month first (--dates day-first or --dates month-first)."
)

_MOST, _LONGEST = 3_000, 200  # rows, and characters of each cell, in which days are sought
_BESIDE_TABLES = 300  # rows among which the only day of a file is looked for; our own bound
DATED = (Role.DATE, Role.SOME_DATE, Role.RECEIVED, Role.REPORTED, Role.ANALYSED)


def texts_in(tables: Iterable[Table]) -> set[str]:
    """Every distinct date that stands in the columns and facts of some tables."""
    texts: set[str] = set()
    for table in tables:
        texts.update(table.facts[role] for role in DATED if role in table.facts)
        for index in (table.columns[role] for role in DATED if role in table.columns):
            texts.update(row[index] for row in table.rows)
    return texts


def with_the_only_day(tables: Sequence[Table], sheets: Iterable[Sheet], today: date) -> None:
    """Give tables of a file without a day of sampling the one day that it tells.

    Each of their readings is asked about then.
    """
    dated = (Role.DATE, Role.SOME_DATE)
    if any(role in table.facts or role in table.columns for table in tables for role in dated):
        return
    places = (t.source.place(index, 0) for t in tables for index in t.indexes[:_BESIDE_TABLES])
    used = {(place.sheet, place.page, place.row) for place in places}
    beside: list[list[str]] = []
    for sheet in sheets:
        for index, row in enumerate(sheet.rows[:_BESIDE_TABLES]):
            place = sheet.place(index, 0)
            if (place.sheet, place.page, place.row) not in used:
                beside.append(row)
    day = only_day(beside, today)
    for table in tables:
        table.is_day_guessed = bool(day)
        table.facts = {**table.facts, **({Role.SOME_DATE: day} if day else {})}


def _days_beside(sheets: Iterable[Sheet], today: date) -> set[str]:
    """The days within all lines of some sheets that can be read in one order only.

    Others prove nothing here: one of them may rightly lie ahead, such as of the next test.
    """
    cells = (cell[:_LONGEST] for sheet in sheets for row in sheet.rows[:_MOST] for cell in row)
    texts = {text[a:b] for text in cells for a, b in dates.days_within(text, today)}
    read = ((text, dates.taken_apart(text, today)) for text in texts)
    return {text for text, printed in read if printed and not printed.is_ambiguous}


def days_of(
    texts: Iterable[str],
    today: date,
    told: Order,
    usual: Order = Order.UNKNOWN,
    sheets: Iterable[Sheet] = (),
) -> tuple["Days", list[Trouble]]:
    """The reader for the dates of a file, and what is odd about their order.

    Args:
        texts: The dates as printed.
        today: No date can be after it.
        told: The order that a person says; UNKNOWN to find it in the dates.
        usual: The order of the file's language or of the household's country, where nothing in
            the dates tells.
        sheets: The file, whose other lines are asked where the dates in `texts` prove nothing.
    """
    kept = sorted(texts)
    order, is_mixed = (told, False) if told else dates.order_of(kept, today)
    days = Days(order or Order.MONTH_FIRST, today)
    if is_mixed:
        text = _(
            "Some dates of this file put the day first and others the month: write them as "
            "year-month-day in the file."
        )
        return days, [Trouble("mixed_dates", text, Severity.STOP)]
    read = (dates.taken_apart(text, today) for text in kept)
    doubtful = next(((t, p) for t, p in zip(kept, read, strict=True) if p and p.is_ambiguous), None)
    if doubtful and not order and (other := dates.order_of(_days_beside(sheets, today), today)[0]):
        return Days(other, today), []
    if order or doubtful is None:
        return days, []
    text, printed = doubtful
    if usual:
        return Days(usual, today), [
            Trouble(ORDER_ASSUMED[usual], _assumed(text, printed, usual), Severity.NOTE)
        ]
    return days, [Trouble(ORDER_ASKED, _question(text, printed), Severity.STOP)]


def _question(text: str, printed: Printed) -> str:
    first, second = printed.day(Order.MONTH_FIRST), printed.day(Order.DAY_FIRST)
    return _(_ADVICE).format(text=text.strip(), first=_written(first), second=_written(second))


def _assumed(text: str, printed: Printed, usual: Order) -> str:
    return _(
        "“{text}” is read as {day}, as dates are written in the language of this file or in the "
        "country of the household."
    ).format(text=text.strip(), day=_written(printed.day(usual)))


def _written(day: date | None) -> str:
    if not day:
        return ""
    return _("{day} {month} {year}").format(
        day=day.day, month=dates_in_words.month(day.month), year=day.year
    )


@dataclass(slots=True)
class Days:
    """Reads dates by one order of day and month.

    Attributes:
        order: Which comes first.
        today: No date can be after it.
    """

    order: Order
    today: date
    _known: dict[tuple[str, str, str], Read] = field(default_factory=dict)

    def read(self, text: str, at: str = "", zone: str = "", what: str = "date") -> Read:
        """A printed day with its time, and what is odd about it; None where it can't be read."""
        key = (text, at, zone)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._read(text.strip(), at.strip(), zone, what)
        return found

    def collected(self, row: Cells, facts: Cells) -> tuple[LocalTime, tuple[Trouble, ...]]:
        """When a sample was drawn, by its row or else by what stands beside the table."""
        for cells, role in (
            (row, Role.DATE),
            (facts, Role.DATE),
            (row, Role.SOME_DATE),
            (facts, Role.SOME_DATE),
        ):
            if cells.get(role):
                # A time beside the table belongs to its date there, not to the date of a row.
                at = row.get(Role.TIME) or (facts.get(Role.TIME, "") if cells is facts else "")
                zone = row.get(Role.ZONE) or facts.get(Role.ZONE, "")
                moment, troubles = self.read(cells[role], at, zone, N_("sampling date"))
                if role is Role.SOME_DATE:
                    troubles = (*troubles, _ROW_DATE if cells is row else _SHEET_DATE)
                return moment or LocalTime(NO_DAY), troubles
        return LocalTime(NO_DAY), (_DAYLESS,)

    def _read(self, text: str, at: str, zone: str, what: str) -> Read:
        if not text:
            return None, ()
        known = None if dates.taken_apart(text, self.today) else dates.month_or_year(text)
        if known and known.first <= self.today:
            return LocalTime.within(known), (
                Trouble("partial_day", _partial(text, known), Severity.NOTE),
            )
        return self._read_day(text, at, zone, what)

    def _read_day(self, text: str, at: str, zone: str, what: str) -> Read:
        printed = dates.taken_apart(text, self.today)
        day = printed.day(self.order) if printed else None
        if printed is None or day is None:
            advice = _(
                "The {what} “{text}” can’t be read: write it as year-month-day in the file."
            ).format(what=_(what), text=text)
            return None, (
                Trouble("bad_date", advice, Severity.STOP if "sampling" in what else Severity.ASK),
            )
        if day > self.today:
            return LocalTime(day), (
                Trouble("future_date", self._ahead(what, day, printed), Severity.STOP),
            )
        rest = "" if dates.is_whole_day(printed.rest) else printed.rest
        if not (at or rest):
            return LocalTime(day), ()
        moment = dates.moment(day, at or rest, zone)
        if moment is None:
            advice = _("The time “{at}” can’t be read: only the day is kept.").format(at=at or rest)
            return LocalTime(day), (Trouble("bad_time", advice),)
        return moment, ()

    def _ahead(self, what: str, day: date, printed: Printed) -> str:
        turned = {Order.MONTH_FIRST: Order.DAY_FIRST}.get(self.order, Order.MONTH_FIRST)
        other = printed.day(turned)
        if printed.is_ambiguous and other and other <= self.today:
            return _(
                "The {what} {day} is in the future, unless {other} is meant: write it "
                "as year-month-day in the file."
            ).format(what=_(what), day=day, other=_written(other))
        return _(
            "The {what} {day} is in the future: correct it in the file, or ask the lab."
        ).format(what=_(what), day=day)


def _partial(text: str, known: PartialDate) -> str:
    return _(
        "Of the day of sampling only “{text}” is known: kept so. Where days are counted, it counts "
        "from {day} on."
    ).format(text=text.strip(), day=known.first.isoformat())


_ROW_DATE = Trouble(
    "some_date", N_("The column says only “Date”: taken as the day of sampling."), Severity.NOTE
)
_SHEET_DATE = Trouble(
    "some_date",
    N_(
        "The file says only “Date”: taken as the day of sampling. If it is the day of the report, "
        "write the day of sampling into the file."
    ),
)


def undated(words: str) -> Trouble:
    """That a row with results has no day, in a table where every row has one."""
    if not words:
        return Trouble(
            "no_date",
            _("The row has results but no date: write the day of sampling into it."),
            Severity.STOP,
        )
    return Trouble(
        "no_date_row",
        _("The row “{words}” was left out: it has no date.").format(words=words),
        Severity.NOTE,
    )


_DAYLESS = Trouble(
    "no_date",
    N_(
        "The file does not say on which day the water was drawn: add a line or a column "
        "“Collected” "
        "with the date."
    ),
    Severity.STOP,
)
