"""What words beside a figure say of it: of its sign, of what was found, or what is to be asked."""

import re
from collections.abc import Mapping
from functools import lru_cache

from wellbook.book.rows import NewResult
from wellbook.intake.tables.tables import Table
from wellbook.intake.words.headings import role_of_column
from wellbook.intake.words.lab_words import SIGNS_APART, meant_by, sign_in_words
from wellbook.intake.words.log import Trouble
from wellbook.intake.words.roles import Role
from wellbook.support.translation import _
from wellbook.water.parsing import lab_phrases
from wellbook.water.values.readings import Kind
from wellbook.water.values.signs import folded, plain

CHANGED = "changed"  # key of the question whether words beside a reading change it
_KNOWN = {"y", "yes", "true", "1", "n", "no", "false", "0"}  # below `Less than?`
YES = {"y", "yes", "true", "1", "lt"}
"""Below `Less than?`."""
_PLAIN_SIGNS = {"=", "eq", "equal", "equals", "equal to", "~", "ca", "ca.", "none"}
# Of a remark that says more of a figure than a flag does. Words of the trade, from memory.
_CHANGING = re.compile(
    r"\b(?:correct(?:ed|ion)\b(?! (?:to|for) (?:00|temp))|revis\w+|amend\w+|errat\w+"
    r"|should (?:read|be)|in ?valid|not valid|void|broken|too (?:numerous|many)|over ?range"
    r"|(?:above|exceed\w*|over|beyond) (?:the )?(?:upper |cali\w+ |linear )?"
    r"(?:cali\w+|range|quanti\w+)"
    r"|korr\w+|berichtig\w+|ungultig|corregid\w+|correccion|rectific\w+|corrige\w*|rectifi\w+)\b"
)
# Which digits a remark holds says nothing here: many rows have remarks that differ in them alone.
_ALIKE = str.maketrans("123456789", "000000000")
_MAYBE = re.compile(
    r"\b(?:present|positiv\w*|exceed\w*|greater|more than|less than)\b"
    r"|[<>]\s*(?=\d|value|shown|wert)"
    r"|(?:\b|\d)(?:[mu]g|ng)\s?/\s?l\b|\bpp[mbt]\b|\bmpn\b|\bcfu\b"
)
# A remark that compares the figure with a limit says nothing else of it.
_OF_A_LIMIT = re.compile(
    r"\b(?:s?mclg?|epa|who|standards?|guidelines?|action level|health|recommend\w*|allow\w*|legal"
    r"|max\w*|aesthetic|secondary|limits?|goals?|grenzwert\w*|limite)\b"
)
_MORE = re.compile(
    r"^(?:greater than|more than|>)(?: (?:the )?(?:value|result)s?(?: shown| reported)?)?$"
)
_LESS = re.compile(
    r"^(?:less than|<)(?: (?:the )?(?:value|result)s?(?: shown| reported)?)?$"
    r"|^(?:unter|inferior a|inferieure? a(?: la)?|por debajo de|kleiner(?: als)?)"
    r"(?: (?:der|la|el))? (?:bg|ng|lq|ld|lc|limite de \w+|bestimmungsgrenze|nachweisgrenze)$"
)


def below_limit(cells: Mapping[Role, str]) -> str:
    """`<0.5` where a sign alone, or `Y` below `Less than?`, stands beside a limit of 0.5.

    Empty without such a sign; `not detected` where no limit is told.
    """
    sign = cells.get(Role.SIGN, "")
    if sign_in_words(sign) != "<" and sign.casefold() not in YES:
        return ""
    limit = cells.get(Role.REPORTING_LIMIT) or cells.get(Role.DETECTION_LIMIT, "")
    return f"<{limit}" if limit[:1].isdigit() else "not detected"


def with_words(cells: Mapping[Role, str], flags: str) -> str:
    """The flags beside a figure, after what words there say of its sign and of what was found."""
    words = (sign_in_words(cells.get(Role.QUALIFIER, "")), _meant_by_note(cells.get(Role.NOTE, "")))
    return " ".join(filter(None, (*words, flags)))


def _meant_by_note(note: str) -> str:
    """What a remark says of its figure, as a flag that is known; empty if it is only prose."""
    return _flag_in(note.translate(_ALIKE)) if note else ""


@lru_cache(maxsize=4096)
def _flag_in(note: str) -> str:
    words = folded(plain(note)).strip(" .!*")
    if _LESS.match(words):
        return "ND"
    if _MORE.match(words):
        return ">"
    meant = lab_phrases.meaning(words) or lab_phrases.meaning(meant_by(words))
    if meant and meant[0] is Kind.BELOW:
        return "ND"
    return "> TNTC" if lab_phrases.overgrown(words) else ""


def _may_change(note: str) -> bool:
    """Whether a remark that is no flag may change its figure or its unit."""
    return bool(note) and _may_change_alike(note.translate(_ALIKE))


@lru_cache(maxsize=4096)
def _may_change_alike(note: str) -> bool:
    words = folded(plain(note))
    if _flag_in(note) or not words:
        return False
    is_word = lab_phrases.is_phrase(words.strip(" .!*")) or bool(_MAYBE.search(words))
    return bool(_CHANGING.search(words)) or (is_word and not _OF_A_LIMIT.search(words))


def open_beside(cells: Mapping[Role, str], result: NewResult) -> tuple[Trouble, ...]:
    """Questions about words beside a figure that may change it, and about a sign not known."""
    note, sign = cells.get(Role.NOTE, ""), cells.get(Role.SIGN, "")
    said = [note] if note and _may_change(note) else []
    if sign and not _is_known_sign(sign):
        said.append(sign)
    return tuple(changed(words, result.name) for words in said)


def unread(table: Table) -> list[int]:
    """Columns of a table whose heading tells nothing; words in them may be of its figures."""
    known = set(table.columns.values())
    return [
        i for i, words in enumerate(table.heading) if i not in known and not role_of_column(words)
    ]


def may_change(words: str) -> bool:
    """Whether words of a column that is not understood may change the figure beside them."""
    text = words.strip()
    return not text[:1].isdigit() and bool(_meant_by_note(text) or _may_change(text))


def changed(words: str, name: str) -> Trouble:
    """That words of the file may change what a figure means."""
    text = _("“{words}” is printed with {name} and may change its figure: look at the report.")
    return Trouble(CHANGED, text.format(words=words, name=name))


def _is_known_sign(sign: str) -> bool:
    words = sign.casefold()
    is_sign = sign in SIGNS_APART or words in _KNOWN | _PLAIN_SIGNS or bool(sign_in_words(sign))
    return is_sign or lab_phrases.is_known_flag(plain(sign)) or bool(meant_by(sign))
