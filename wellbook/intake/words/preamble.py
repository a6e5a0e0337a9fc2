"""Lines of words beside a table: `Collected: 2025-05-03`, `Sample ID,AB-1`."""

import re
from collections.abc import Iterable
from datetime import date
from itertools import pairwise

from wellbook.intake.files.sheets import Cells, alone
from wellbook.intake.words import days_in_prose
from wellbook.intake.words.asides import is_place, section
from wellbook.intake.words.dates import (
    Order,
    clock,
    days_within,
    is_whole_day,
    month_or_year,
    taken_apart,
)
from wellbook.intake.words.headings import role_of, roles_of
from wellbook.intake.words.letterheads import is_firm
from wellbook.intake.words.names import read_draw
from wellbook.intake.words.roles import Role
from wellbook.water.values.signs import folded

Facts = dict[Role, str]

_DATES = frozenset({Role.DATE, Role.SOME_DATE, Role.RECEIVED, Role.REPORTED, Role.ANALYSED})
_TIMES = frozenset({Role.TIME, Role.RECEIVED_TIME, Role.ANALYSED_TIME})
_WORDS = frozenset(
    {
        Role.ZONE,
        Role.POINT,
        Role.WELL,
        Role.NUMBER,
        Role.CLIENT_NUMBER,
        Role.REPORT_NUMBER,
        Role.LAB,
        Role.SAMPLER,
        Role.PURPOSE,
        Role.TEMPERATURE,
        Role.DRAW,
        Role.FRACTION,
        Role.KIND,
        Role.MEDIUM,
    }
)
OF_ONE_SAMPLE = frozenset(
    {
        Role.DATE,
        Role.SOME_DATE,
        Role.TIME,
        Role.NUMBER,
        Role.CLIENT_NUMBER,
        Role.POINT,
        Role.RECEIVED,
    }
)
OF_A_KIND = (Role.KIND, Role.MEDIUM)
"""What tells whether a sample is the household's water; it ends with the facts of the next."""
_DRAWN = frozenset({Role.POINT, Role.WELL, Role.CLIENT_NUMBER, Role.DRAW})
_GAP = re.compile(r"\s{2,}|\t|\s\|\s")
_PLACE_HEADING = re.compile(
    r"location|point|punto|lugar|lieu|site|stelle|ort$|station|source|where"
    r"|\b(?:at|from)$",
    re.IGNORECASE,
)
_WORDS_BEFORE = 4  # of a line that names a day without a colon
_LONGEST = 200  # characters of a fact; beyond that it is prose

_WORDS_OF_PLACE = 3
_LONGEST_TITLE = 60
_END = re.compile(r"(?<=\b(?:19|20)\d\d)\.(?=\s|$)")  # of a sentence, right behind a day
_MOST_OF_DRAW = 5
# As titles of samples say it; a line such as `Flush the tap` is none.
_DRAW = re.compile(r"\b(?:first|1st|second|2nd)[ -]draw\b|\bflushed\b", re.IGNORECASE)
_AROUND = " ,;:*-–—=#_~|/()[]"  # what stands around a day in a title
_AT = re.compile(r"^(at|from|en|in|am|beim|au|à)\b\s*(the|el|la|le|der|dem)?\b\s*", re.IGNORECASE)
_TITLE = re.compile(
    r"\b(waters?|tests?|results?|reports?|analys[ei]s|analisis|logs?|data|records?|notes?|book"
    r"|quality|history|agua|eau|wasser\w*|informe|rapport|bericht"
    r"|diary|journal|binder|notebook|summary|overview|monitoring|carnet|cahier|suivi|registre|dossier"
    r"|historique|bilan|fiche|cuaderno|diario|registro|seguimiento|libreta|historial|bitacora|resumen"
    r"|tagebuch|protokoll|verlauf|aufzeichnungen|ubersicht|heft|buch|uberwachung)\b"
    # or a greeting
    r"|^(dear|hello|hi|hola|estimad\w+|querid\w+|apreciad\w+|bonjour|cher|chere|madame|monsieur"
    r"|sehr|lieber?|guten|hallo)\b|,$"
)

# Before what a sample is called, as in `Sample 8812-02: Barn hydrant`.
_NUMBERED = re.compile(
    r"^(?:sample|muestra|probe|echantillon|prelevement) ?(?:no|nr|n)?"
    r"(?: ?[\w./-]{0,12}\d[\w./-]{0,12}){1,3}$|^description$"
)
# A time with words behind it.
_TIME = re.compile(
    r"(?:at )?\d{1,2}:\d\d(?::\d\d)?(?: ?[ap]\.?m\b\.?)?(?=[\s,;(.]|$)", re.IGNORECASE
)
# Such as `Well tap, sampled 28 April 2023`.
_PLACE_SAMPLED = re.compile(
    r"(?P<place>[^,:;.]{3,40}), (?:was )?(?:sampled|collected|drawn|taken)\b", re.IGNORECASE
)
_COLON = re.compile(r":(?=\s)")
_WORD = re.compile(r"[^\s:]+")
# Words before a day that is none of sampling.
_OTHER_DAY = re.compile(
    r"\b(next|due|expir\w*|valid\w*|birth\w*|print\w*|invoice\w*|order\w*|paid|version|revis\w*"
    r"|effective|signed|page|sent|mailed|until|gedruckt|vencimiento|impreso|imprime|valable)\b"
)

_ABOUT_WATER = re.compile(
    r"\b(tests?|tested|sampl\w*|water|well|inspect\w*|analys[ei]s|visit\w*|survey\w*|check\w*"
    r"|muestr\w*|agua|pozo|prelev\w*|eau|puits|wasser\w*|brunnen\w*|probe\w*)\b"
)
_OF_A_REPORT = re.compile(
    r"\b(receiv\w*|recd|report\w*|issued?|analy[sz]\w*|printed|complet\w*|created|installed"
    r"|drilled|replaced|serviced|eingang\w*|bericht\w*|recib\w*|recepcion|recu\w*|reception"
    r"|informe|emision|edite\w*|born)\b"
)


def facts_in(row: Cells, today: date) -> Facts:
    """The facts in one row that is not part of a table."""
    gaps = [gap for cell in row for part in _GAP.split(cell) for gap in _END.split(part)]
    parts = [gap.strip() for gap in gaps if gap.strip()]
    cells = [one for part in parts for one in _labelled(part)]
    facts: Facts = {}
    index = 0
    while index < len(cells):
        days = _days_told(cells[index])
        if len(days) > 1:
            facts = {**days, **facts}
            index += 1
            continue
        role, value, used = _fact(cells, index)
        index += used
        if role and value and is_fact(role, value, today):
            facts.setdefault(role, _without_words(value) if role in _DATES else value)
    return facts


def _labelled(text: str) -> list[str]:
    """A line such as `Sample ID: A-1 Matrix: Water Collected: 5/3/2024`, cut before its words.

    So is a day with one more word behind it: `5/3/2024 06:10 Lab ID: A-1`.
    """
    count = text.count(": ") if len(text) <= _LONGEST else 0
    if not count or (count < 2 and taken_apart(text, date.max) is None):  # noqa: PLR2004
        return [text]
    starts: list[int] = []
    for colon in _COLON.finditer(text):
        words = list(_WORD.finditer(text, starts[-1] if starts else 0, colon.start()))
        label = -1
        for word in reversed(words[-_WORDS_BEFORE:]):
            if label >= 0 and not role_of(word[0]):
                break  # `TAP-1 Matrix`
            if role_of(text[word.start() : colon.start()]):
                label = word.start()
        if label >= 0:
            starts.append(label)
    edges = sorted({0, *starts, len(text)})
    return [part for a, b in pairwise(edges) if (part := text[a:b].strip(" ,;|"))]


def facts_below(row: Cells, below: Cells, today: date) -> Facts:
    """The facts in a row of words such as `Date sampled`, `Location` with their values below."""
    roles = roles_of(row)
    told = [cell.strip() for cell in row if cell.strip()]
    is_of_labels = len(told) > 1 and all(cell.endswith(":") for cell in told)
    known = {role for role in roles if role in _DATES | _TIMES | _WORDS}
    if len(known) < (1 if is_of_labels else 2):
        return {}
    pairs = [(role, below[i].strip()) for i, role in enumerate(roles) if role and i < len(below)]
    # `Tap` is a word before a place as well as a place.
    if any(
        role_of(value) and not (role is Role.POINT and is_place(value)) for role, value in pairs
    ):
        return {}
    return {role: value for role, value in pairs if value and is_fact(role, value, today)}


def _fact(cells: list[str], index: int) -> tuple[Role | None, str, int]:
    """Role and value of the fact at a place, and how many cells it takes."""
    key, colon, value = (part.strip() for part in cells[index].partition(":"))
    after = cells[index + 1] if index + 1 < len(cells) else ""
    role = role_of(key)
    is_name = after.strip() and not any(map(str.isdigit, after))
    if (colon or (is_name and role is None)) and _NUMBERED.match(folded(key)):
        role = Role.CLIENT_NUMBER
    if role not in _DATES and taken_apart(value or after, date.max) is not None:
        role = _of_a_day(key) or role
    within = _day_in_line(cells[index]) if not value or role in {None, Role.NOTHING} else None
    if within:
        return *within, 1
    if role is None or value:
        return role or _of_some_day(key, value), value, 1
    if role in _DATES and taken_apart(after, date.max) is not None:
        return role, after, 2
    if not colon and role is Role.POINT and not _PLACE_HEADING.search(key):
        return None, "", 1  # the name of a place, not a heading over one
    is_check = role in OF_A_KIND and bool(section([after]))  # such as `QC`, a heading elsewhere
    is_value = bool(colon) or _are_pairs(cells)
    if (
        not after
        or after.endswith(":")
        or (_is_word(after, role, is_value=is_value) and not is_check)
    ):
        return role if colon else None, "", 1
    return role, after, 2


def _are_pairs(cells: list[str]) -> bool:
    """Whether a row is a word and what it tells, or several of these, one of which is a figure."""
    words, values = cells[::2], cells[1::2]
    if len(cells) == 2:  # noqa: PLR2004
        return True
    are_words = len(words) == len(values) and all(map(role_of, words))
    return are_words and any(map(str.isdigit, "".join(values)))


def _is_word(text: str, role: Role | None, *, is_value: bool) -> bool:
    """Whether what stands behind a word is itself one before a fact, or one over a column.

    `Kitchen first draw` is none behind a word before a place or a draw, nor is `Well` where only
    what the word tells can stand.
    """
    is_drawn = role in _DRAWN and (bool(read_draw(text)) or (is_value and is_place(text)))
    return not is_drawn and role_of(text.partition(":")[0]) is not None


def _of_some_day(key: str, value: str) -> Role | None:
    """That a day stands behind a word that no list has, such as `Event: 3 May 2024`."""
    printed = taken_apart(value, date.max) if value and key else None
    is_day = printed is not None and (not printed.rest or clock(printed.rest) is not None)
    return Role.SOME_DATE if is_day and not _OTHER_DAY.search(folded(key)) else None


def _day_in_line(text: str) -> tuple[Role, str] | None:
    """A day that a line tells without a colon; the day of sampling before any other."""
    dated = _dated(text)
    if dated and dated[0] is Role.DATE:
        return dated
    days = _days_told(text)
    told = next((r for r in (Role.DATE, Role.SOME_DATE) if r in days), None)
    return dated if told is None or (dated and told is not Role.DATE) else (told, days[told])


def _dated(text: str) -> tuple[Role, str] | None:
    """A day behind its word without a colon, such as `Drawn 18 Sept 2019, barn tap`."""
    if len(text) > _LONGEST:
        return None
    words = text.split(" ")
    for n in range(1, min(len(words), _WORDS_BEFORE + 1)):
        role = role_of(" ".join(words[:n]))
        if role not in _DATES or role is Role.SOME_DATE:
            continue
        value = " ".join(words[n:])
        printed = taken_apart(value, date.max)
        if printed is None:
            continue
        value = _without_words(value)  # such as where it was drawn
        # A household's `Tested 5 May 2019` tells on which day it had the water tested.
        is_own = role is Role.ANALYSED and words[0].casefold() == "tested"
        return Role.SOME_DATE if is_own else role, value
    return None


def _without_words(value: str) -> str:
    """A day, and its time, without the words behind them, such as `by the owner`."""
    printed = taken_apart(value, date.max)
    if printed is None or not printed.rest or clock(printed.rest) is not None:
        return value
    start, time = value.rindex(printed.rest), _TIME.match(printed.rest)
    if time and clock(time[0]) is not None:
        return value[: start + time.end()]
    return value[:start].rstrip(" ,@T")


def _of_a_day(key: str) -> Role | None:
    """What a word before a day says, such as `collectedAt`, that says something else alone."""
    role = role_of(f"{key.strip()} date")
    return role if role in _DATES and role is not Role.SOME_DATE else None


def _days_told(text: str) -> Facts:
    """The days that a sentence, or a line of several facts, tells by the words before each."""
    text, before = text[:_LONGEST], 0
    facts: Facts = {}
    for start, end in days_within(text, date.max):
        words = text[before:start].rstrip(" :=-").split()
        before = end
        tails = (
            role_of(" ".join(words[-n:])) for n in range(1, min(len(words), _WORDS_BEFORE) + 1)
        )
        dated = (role for role in tails if role in _DATES and role is not Role.SOME_DATE)
        before_it = folded(" ".join(words))
        is_told = days_in_prose.is_of_sampling(before_it, text[end:])
        is_rough = days_in_prose.is_of_a_test(before_it, text[end:])
        role = Role.DATE if is_told else next(dated, Role.SOME_DATE if is_rough else None)
        if role:
            time = _TIME.match(text, end + 1)
            facts.setdefault(role, text[start : time.end() if time else end])
    place = _PLACE_SAMPLED.match(text) if Role.DATE in facts else None
    if place and is_place(place["place"]):
        facts[Role.POINT] = place["place"]
    return facts


def only_day(rows: Iterable[Cells], today: date) -> str:
    """The one day that some rows tell, beside a word such as `test`, and none of a report's."""
    found: dict[object, str] = {}
    for row in rows:
        text = "  ".join(cell.strip() for cell in row if cell.strip())[:_LONGEST]
        before = 0
        for start, end in days_within(text, today):
            words = folded(text[before:start]).rstrip(" :=-")
            before = end
            printed = taken_apart(text[start:end], today)
            is_other = _OTHER_DAY.search(words) or _OF_A_REPORT.search(words)
            if printed and _ABOUT_WATER.search(words) and not is_other:
                found[printed.day(Order.MONTH_FIRST) or text[start:end]] = text[start:end]
    return next(iter(found.values())) if len(found) == 1 else ""


def of_title(text: str, today: date) -> Facts:
    """The day, and the place beside it, of a title such as `26 October 2023, kitchen tap`."""
    days = days_within(text, today)
    if len(days) != 1 or len(text) > _LONGEST_TITLE:
        return {}
    start, end = days[0]
    before, behind = text[:start].strip(_AROUND), text[end:].strip(_AROUND)
    rest = _AT.sub("", before or behind)
    words = folded(rest)
    is_other = _OTHER_DAY.search(words) or _OF_A_REPORT.search(words) or _TITLE.search(words)
    is_long = len(rest.split()) > _WORDS_BEFORE or any(map(str.isdigit, rest))
    if not rest or (before and behind) or is_other or is_long:
        return {}
    day: Facts = {Role.SOME_DATE: text[start:end]}
    if is_place(rest):
        return {**day, Role.POINT: rest}
    return {} if before else day


def stands_alone(rows: Iterable[Cells], today: date) -> Facts:
    """The one day, place and draw that stand in a line of their own above a table."""
    lines = [text for row in rows if (text := alone(row))]
    titles = {t: told for t in lines if Role.POINT in (told := of_title(t, today))}
    days = [text for text in lines if (day := taken_apart(text, today)) and is_whole_day(day.rest)]
    drawn = [
        text
        for text in lines
        if len(text.split()) <= _MOST_OF_DRAW and ":" not in text and _DRAW.search(text)
    ]
    places = [
        text
        for text in lines
        if (len(text.split()) <= _WORDS_OF_PLACE or text in drawn)
        and is_place(text)
        and not (_TITLE.search(folded(text)) or is_firm(text))
    ]
    days += [told[Role.SOME_DATE] for told in titles.values()]
    places = [text for text in places if text not in titles]
    draws = [text for text in drawn if text not in places and text not in titles]
    places += [told[Role.POINT] for told in titles.values()]
    found = ((Role.SOME_DATE, days), (Role.POINT, places), (Role.DRAW, draws))
    return {role: texts[0] for role, texts in found if len(texts) == 1}


def says_a_fact(text: str) -> bool:
    """Whether a cell is the word before a fact, such as `Collected:`."""
    return role_of(text.partition(":")[0]) in _DATES | _TIMES | _WORDS


def is_fact(role: Role, value: str, today: date) -> bool:
    """Whether a value is of the kind that its word promises."""
    if role in _DATES:
        is_part = role is Role.DATE and month_or_year(value) is not None
        return is_part or taken_apart(value, today) is not None
    if role in _TIMES:
        return clock(value) is not None
    return role in _WORDS and len(value) <= _LONGEST


def is_of_facts(row: Cells) -> bool:
    """Whether a row tells about the next sample: `Sample 2:`, `Barn`, `Collected:`, a day."""
    return any(cell.strip().endswith(":") and says_a_fact(cell) for cell in row)
