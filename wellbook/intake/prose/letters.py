"""Readings within sentences, such as `Your nitrate was 3.2 mg/L`; each of them is asked about."""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field, replace
from datetime import date

from wellbook.intake.files.plain_lines import DEGREES, OTHER_WATER
from wellbook.intake.files.sheets import Cells, Line, Sheet
from wellbook.intake.prose.named import Names
from wellbook.intake.words.dates import days_within
from wellbook.support.translation import _
from wellbook.water.units.basis import SPELLED_OUT
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding

PROSE = "prose"  # doubt of every figure that was read from a sentence
_LESS = r"(?:below |less than |under |unter |menos de |moins de |< ?)?"
_FIGURE = rf"(?P<figure>{_LESS}\d[\d.,]*\d|{_LESS}(?:(?<![\w.])\.)?\d+)"
_UNITS = (
    r"(?:MPN|CFU|KBE|UFC|NMP|NPP|n)? ?/ ?100 ?m[lL]\b|(?:per|in|en|pro) 100 ?m[lL]\b"
    r"|[mµμun]?g [A-Z][A-Za-z\d]{0,5}/[lL]"
    rf"|[^\s\d/,.;()\"”]{{1,4}}/[^\s\d/,.;()\"”]+(?: \(?{SPELLED_OUT}\)?| as [A-Z]\w*)?"
    r"|[µμu]?mhos?/cm|[NF]TU|FNU|NFU|UN[TF]|ppm|ppb|(?:pH|std\.?|standard) units?"
    rf"|{DEGREES}"
)
# A flag, such as the J of `0.976 J mg/L`, stands between a figure and its unit.
_MEASURED = re.compile(
    rf"(?<![\w.,/-]){_FIGURE}(?! ?%)"
    rf"(?:(?P<flag> ?(?:UJ|[JUBHE])[+-]?)? ?\(?(?P<unit>{_UNITS})(?![\w/]))?"
)
# What stands between a name and its figure where no other word does, as in `iron: 0.3`.
_TO = re.compile(
    r"(?:\s*(?:[:=≈–—-]+>?|\.{2,}|…)\s*|\s+(?:is|was|were|are|at|of|level|levels|count|reading|ist"
    r"|war|liegt bei|betr[äa]gt|lag bei|es|son|de|est|sont|à|a)(?=\s))*\s*"
)
# Words that tell whether something was found only right behind a name; `no` and `yes` are asked.
_WORD = re.compile(
    r"(?P<figure>none(?: found| seen| detected)?|nothing(?: found)?|clean|no|yes|nd|n\.d\.|n\. ?n\."
    r"|bdl|keine|nein|ja|ningun[oa]|nada|s[ií]|aucune?|non|oui|found|detected|nachgewiesen|gefunden)"
    rf"(?=\s*(?:[,;.)/\n]|$|and\b|und\b|et\b|y\b|(?:{_UNITS})))",
    re.IGNORECASE,
)
_UNIT_BEHIND = re.compile(rf" ?\(?(?P<unit>{_UNITS})(?![\w/])")
_ENDS_HERE = re.compile(r"\s*(?:[,;/)]|\.(?!\d)|\n|$|[-–—] |(?:and|or|but|und|et|y|e)\b)")
_YEAR = re.compile(r"(?:19|20)\d\d$")
_IS = r"(?:was|were|is|are|been|wurden?|waren|sind|ist) "
_STATED = re.compile(
    r"\b(?:(?P<figure>absent|absence|present|pr[ée]sen(?:ce|te?s?)|presen(?:tes?|cia)"
    r"|ausen(?:tes?|cia)|absent[es]{1,2}|neg(?:ative)?|pos(?:itive)?|negativ[oa]?s?|positiv[oa]?s?"
    r"|n[ée]gati(?:f|ve)s?|positi(?:f|ve)s?|not (?:detected|found|present)"
    r"|not (?:absent|negative|free)|no absence|none absent|nicht (?:abwesend|negativ)"
    r"|no (?:ausentes?|negativ[oa]s?)|(?:non|pas) (?:absente?s?|n[ée]gati(?:f|ve)s?)"
    r"|(?:non|pas) d[ée]tect[ée]e?s?"
    r"|no (?:detectad[oa]s?|se (?:han? )?detect\w+)|nicht (?:nachgewiesen|nachweisbar|gefunden)"
    rf"|nachgewiesen|nachweisbar)|{_IS}(?P<found>detected|found))\b",
    re.IGNORECASE,
)
_NONE = re.compile(
    r"\b(?P<figure>no se (?:han )?(?:detect|encontr)\w+|no|keine?|aucune?|ningun[oa]?|sin|pas de)"
    r" (?=(?P<name>[^\W\d_]))",
    re.IGNORECASE,
)
_LIMIT = re.compile(
    r"\b(limits?|guidelines?|standards?|maximum|max|allow(?:s|ed)|should|must|recommend\w*|EPA"
    r"|exceeds?|above|goal|grenzwert\w*|richtwert\w*|l[íi]mites?|norme|valor param\w+"
    r"|r[ée]f[ée]rence)\b",
    re.IGNORECASE,
)
_WRAPPED = re.compile(r"\b(E\.)\n(?=coli\b)", re.IGNORECASE)  # no sentence ends there
_LINE = r"[^.!?\n]+(?:[.!?](?=\d| ?(?i:coli)\b)[^.!?\n]*)*"
# A line that begins with a day, a mark or a few words and a colon begins a sentence.
_BEGINS = r"\s*[-*•]|\s*\d{1,4}[-/.]\d{1,2}[-/.]|[^\n:.,]{2,40}:\s"
_SENTENCE = re.compile(rf"{_LINE}(?:\n(?!\n|{_BEGINS}){_LINE})*")
_JOINED = re.compile(
    r"^\s*(?:[,/]|and|or|nor|und|et|y|e|ni|oder|no)?\s*(?:(?:de|des|of|von|the|any|total)\s|d['’])?$",
    re.IGNORECASE,
)
_OF = re.compile(r"^ (?:of|for|de|d['’]|du|des|von|an)(?: |(?<=['’]))(?:the |total )?$")
_CLAUSE = re.compile(r"[,;:()]|\s[-–—]\s|\b(?:and|und|et|y)\b")
_IN_BRACKETS = re.compile(r"[(\[][^()\[\]\n]*[)\]]")
_FAR = 90  # letters between a name and its figure; our own bound
_OTHER_DAYS = re.compile(
    r"\b(receiv\w*|report\w*|print\w*|issued?|analy[sz]ed|mailed|invoice\w*|due|born|next|drilled"
    r"|installed|replaced|valid|until|eingang\w*|bericht\w*|recibid\w*|re[çc]u\w*|informe)\b",
    re.IGNORECASE,
)
_OF_SAMPLING = re.compile(
    r"\b(sampl\w*|collect\w*|drawn|taken|took|test\w*|entnommen|probe\w*|pr[ée]lev\w*|muestra\w*"
    r"|tom[óoa]\w*|recogid\w*)\b",
    re.IGNORECASE,
)
_ENDS = frozenset({",", ";", ":", "\t", "\n", ""})
_BEFORE_DAYS = 60  # letters before a day that tell what it is
MOST_LINES = 3_000  # of a letter; our own bounds
_MOST = 100_000  # characters of a letter; our own bound, as the next
_AROUND = 200  # letters of a line before and behind a figure
_LONGEST = 1_000  # characters of a sentence


def text_of(sheet: Sheet) -> str:
    """What the rows of a page, or of a sheet, say, a line for each."""
    if sheet.is_paper or all(len(row) < 2 for row in sheet.rows):  # noqa: PLR2004
        return "\n".join(" ".join(filter(None, row)) for row in sheet.rows)
    rows = ("; ".join(filter(None, map(str.strip, row))) for row in sheet.rows)
    return "\n".join(row.replace("\n", "; ") + "." * (row[-1:] != "") for row in rows)


def sheet_of(text: str, catalogue: Catalogue, source: tuple[Line, ...] = ()) -> Sheet | None:
    """The lines of a letter, and below them the readings of its sentences; None without any.

    Args:
        text: The letter.
        catalogue: To know a parameter's name.
        source: Where each line stands, if not in the row of its own number.
    """
    found = _readings(text, catalogue) if len(text) <= _MOST else {}
    if not found:
        return None
    rows: list[Cells] = [[line.strip()] for line in text.split("\n")]
    lines = list(source or map(Line, range(1, len(rows) + 1)))
    days = _days(text)
    over = "Date" if days and not days[0].is_sure else "Date collected"
    rows.append(["Parameter", "Result", "Unit", *([over] if days else [])])
    lines.append(lines[-1])
    for at, readings in sorted(found.items()):
        for reading in readings:
            rows.append([*reading, _day_of(at, days)] if days else reading)
            lines.append(lines[_line(text, at) - 1])
    said = _("Read from sentences: compare each figure with the letter before you keep it.")
    return Sheet("", rows, findings=(Finding(PROSE, said),), lines=tuple(lines), text=text)


def beside(letter: Sheet, page: Sheet) -> Sheet:
    """The readings of a letter below the cells of its page, with what is known of those."""
    rows = letter.rows if page.is_paper else [*page.rows, *letter.rows[len(page.rows) :]]
    findings = (*page.findings, *letter.findings)
    return replace(letter, name=page.name, rows=rows, findings=findings, hidden=page.hidden)


def left_in(text: str, catalogue: Catalogue) -> Iterator[tuple[str, int]]:
    """Figures with a unit of which no reading was made, each with its line."""
    taken = _readings(text, catalogue)
    for found in _MEASURED.finditer(text):
        at = found.start("figure")
        if found["unit"] and at not in taken:
            yield found["figure"], _line(text, at)


def told_beside(
    text: str, catalogue: Catalogue, known: Collection[int]
) -> Iterator[tuple[str, int]]:
    """Results that sentences tell beside a table, and figures in lines that name a parameter.

    Args:
        text: The letter.
        catalogue: To know a parameter's name.
        known: Numbers of the lines of which results were made, or of which it is said why not.
    """
    if len(text) > _MOST:
        return
    told = {at: readings[0][1] for at, readings in _readings(text, catalogue).items()}
    names = Names(catalogue)
    for found in _MEASURED.finditer(text):
        at = found.start("figure")
        if found["unit"] and at not in told and names.within(_line_at(text, at)):
            told[at] = found["figure"]
    for at in sorted(told):
        if _line(text, at) not in known:
            yield told[at], _line(text, at)


def _line_at(text: str, at: int) -> str:
    """The line around a place, as far as words there can tell of it."""
    first = max(text.rfind("\n", 0, at) + 1, at - _AROUND)
    return text[first : at + _AROUND].partition("\n")[0]


def _line(text: str, at: int) -> int:
    return text.count("\n", 0, at) + 1


def _readings(text: str, catalogue: Catalogue) -> dict[int, list[Cells]]:
    """Name, figure and unit of each reading, by where its figure stands in the text.

    A word such as `absent` may be said of several names, `Coliform and E. coli were absent`.
    """
    made: dict[int, list[Cells]] = {}
    names = Names(catalogue)
    text = _WRAPPED.sub(r"\1 ", text)
    for sentence in _SENTENCE.finditer(text):
        words = _IN_BRACKETS.sub(_hidden, sentence[0][:_LONGEST].replace("\n", " "))
        for at, readings in _Clauses(words, names.within(words)).readings():
            part = words[words.rfind(";", 0, at) + 1 :].partition(";")[0]
            if not OTHER_WATER.search(part):
                made[sentence.start() + at] = readings
    return made


def _hidden(bracket: re.Match[str]) -> str:
    """As many blanks as a bracket has letters, if it tells of other water, such as of last year."""
    return " " * len(bracket[0]) if OTHER_WATER.search(bracket[0]) else bracket[0]


@dataclass(slots=True)
class _Clauses:
    """The names and the figures of one sentence, each figure given to one name.

    Attributes:
        words: The sentence.
        names: Start, end and text of each name in it.
    """

    words: str
    names: list[tuple[int, int, str]]
    _used: set[int] = field(default_factory=set)  # names that have their figure

    def readings(self) -> Iterator[tuple[int, list[Cells]]]:
        """The readings by where their figure stands in the sentence."""
        if not self.names:
            return
        denied = [found for found in _NONE.finditer(self.words) if self._at(found.start("name"))]
        for found in denied:
            names = self._run_from(found.start("name"))
            yield found.start("figure"), [[name, found["figure"], ""] for name in names]
        stated = {found.start(): found for found in _STATED.finditer(self.words)}
        told = [*_MEASURED.finditer(self.words), *({**self._words_beside(), **stated}).values()]
        for found in sorted(told, key=lambda one: one.start()):
            parts = found.groupdict()
            figure, unit = parts["figure"] or parts["found"], parts.get("unit") or ""
            is_word = not figure[-1].isdigit()
            behind = _UNIT_BEHIND.match(self.words, found.end()) if is_word else None
            unit = behind["unit"] if behind else unit
            names = self._of(found.start(), found.end(), is_word=is_word)
            if names and (unit or is_word or self._is_beside(found.start("figure"), figure)):
                text = figure + (parts.get("flag") or "")
                yield found.start(), [[name, text, unit] for name in names]

    def _words_beside(self) -> dict[int, re.Match[str]]:
        """Words such as `none` right behind a name, by where they stand."""
        ends = (_TO.match(self.words, end) for _start, end, _name in self.names)
        words = (_WORD.match(self.words, found.end()) for found in ends if found and found[0])
        return {found.start(): found for found in words if found}

    def _is_beside(self, start: int, figure: str) -> bool:
        """Whether a figure without a unit stands right behind a name, and nothing behind it."""
        end = start + len(figure)
        rest = len(self.words[end:]) - len(self.words[end:].lstrip())
        is_last = _ENDS_HERE.match(self.words, end) or (rest and self._at(end + rest))
        name = max((name[1] for name in self.names if name[1] <= start), default=None)
        is_near = name is not None and _TO.fullmatch(self.words, name, start)
        return bool(is_near and is_last) and not _YEAR.match(figure)

    def _at(self, start: int) -> int | None:
        """Number of the name that begins somewhere, counted from 1; None if none does."""
        return next((n for n, name in enumerate(self.names, 1) if name[0] == start), None)

    def _run_from(self, start: int) -> list[str]:
        """The name that begins somewhere and those joined to it; they have their word then."""
        first = (self._at(start) or 1) - 1
        last = first
        while last + 1 < len(self.names) and self._are_joined(last):
            last += 1
        self._used.update(range(first, last + 1))
        return [name for _a, _b, name in self.names[first : last + 1]]

    def _are_joined(self, n: int) -> bool:
        return bool(_JOINED.match(self.words[self.names[n][1] : self.names[n + 1][0]]))

    def _of(self, start: int, end: int, *, is_word: bool) -> list[str]:
        """The names of which a figure, or a word for one, is told; none if of none."""
        after = next((n for n, name in enumerate(self.names) if name[0] >= end), None)
        if after is not None and after not in self._used:
            between = self.words[end : self.names[after][0]]
            if _OF.match(between):
                if is_word:
                    return self._run_from(self.names[after][0])
                self._used.add(after)
                return [self.names[after][2]]
        before = [n for n, name in enumerate(self.names) if name[1] <= start]
        if not before or before[-1] in self._used or self._is_of_a_limit(before[-1], start):
            return []
        first = before[-1]
        while is_word and first and first - 1 not in self._used and self._are_joined(first - 1):
            first -= 1
        self._used.update(range(first, before[-1] + 1))
        return [self.names[n][2] for n in range(first, before[-1] + 1)]

    def _is_of_a_limit(self, n: int, start: int) -> bool:
        """Whether a limit is told between a name and a figure, or before them in their clause."""
        name_start, name_end, _name = self.names[n]
        clause = max((one.end() for one in _CLAUSE.finditer(self.words, 0, name_start)), default=0)
        said = self.words[clause:name_start] + self.words[name_end:start]
        return bool(_LIMIT.search(said)) or start - name_end > _FAR


@dataclass(frozen=True, slots=True)
class _Day:
    """A day that a letter tells: where it stands, as printed, and whether it is one of sampling."""

    start: int
    text: str
    is_sure: bool


def _days(text: str) -> list[_Day]:
    """The days of sampling in a letter; those of which nothing is said if no other is told."""
    found: list[_Day] = []
    for start, end in days_within(text, date.max):
        before = text[max(start - _BEFORE_DAYS, 0) : start].rpartition("\n\n")[2]
        before = re.split(r"[.;]\s", before)[-1]
        is_first = before[-1:] in {"", "\n"} and text[end : end + 1] in _ENDS
        before = "" if is_first else before  # a day before what was done on it, as in a log
        line = before.rpartition("\n")[2]
        if _OTHER_DAYS.search(line) and not _OF_SAMPLING.search(line):
            continue  # `Report Date`, whatever the line above says
        if not _OTHER_DAYS.search(before) or _OF_SAMPLING.search(before):
            found.append(_Day(start, text[start:end], bool(_OF_SAMPLING.search(before))))
    return [day for day in found if day.is_sure] or found


def _day_of(at: int, days: list[_Day]) -> str:
    """The last day that is told before a figure, or else the first one behind it."""
    before = [day for day in days if day.start < at]
    return (before[-1] if before else days[0]).text
