"""Numbers of a workbook as the sheet shows them.

A lab that prints `<0.005` often keeps the number 0.005 under a format such as `"<"0.000`: without
the format the sign and the digits are lost. Format codes are those of ECMA-376 part 1, 18.8.31.
"""

import re
from decimal import ROUND_HALF_UP, Context, Decimal
from functools import lru_cache

_BEYOND_DIGITS = 1e15  # no format shows a number truly from here on
_SECTION = re.compile(r'((?:"[^"]*"|\\.|\[[^\]]*\]|[^;"\\\[])*)(?:;|$)')
_CONDITION = re.compile(r"\[(<=|>=|<>|<|>|=)(-?[\d.]+)\]")
_PIECE = re.compile(
    r'"(?P<quoted>[^"]*)"|\\(?P<escaped>.)|_.|\*.|\[[^\]]*\]'
    r"|(?P<digits>[#0?][#0?,]*(?:\.[#0?]*)?|\.[#0?]+)(?P<power>E[+-]0+)?|(?P<plain>[^\"\\])"
)
_SHOWN_AS_THEY_ARE = set("<>=+-()/: $%^!&'~{}")


def plain(number: float) -> str:
    """A number without a format: at most 15 digits, as a cell holds them, never with an exponent.

    Fifteen digits are what the IEEE double in a cell holds for sure.
    """
    number = float(number)
    if number.is_integer():
        return str(int(number))
    return format(Decimal(format(number, ".15g")), "f")


def shown(number: float, code: str) -> str:
    """A number as a format shows it.

    Plain where the format is not understood, or where it would show nothing but zeros of a number
    that is not zero: that is a column set too coarse, not what a lab reported.
    """
    section, negative = _section(number, code)
    pieces = _pieces(section)
    if pieces is None or abs(number) >= _BEYOND_DIGITS:
        return plain(number)
    texts = [_digits(abs(number), d, power) if d else text for text, d, power in pieces]
    digits = [text for text, (_, d, _) in zip(texts, pieces, strict=True) if d]
    if number and digits and not re.search(r"[1-9]", digits[0]):
        return plain(number)
    return ("-" if negative else "") + "".join(texts).strip()


def _section(number: float, code: str) -> tuple[str, bool]:
    """The section of a format that holds for a number, and whether a minus sign is due."""
    sections = list(_SECTION.findall(code))[:4]
    conditions = [_CONDITION.search(section) for section in sections]
    if any(conditions):
        for section, condition in zip(sections, conditions, strict=True):
            if condition is None or _holds(number, condition[1], float(condition[2])):
                return section, number < 0
    if number < 0 and len(sections) > 1 and sections[1]:
        return sections[1], False
    if number == 0 and len(sections) > 2 and sections[2]:  # noqa: PLR2004  third is for zero
        return sections[2], False
    return sections[0], number < 0


def _holds(number: float, sign: str, bound: float) -> bool:
    return {
        "<": number < bound,
        "<=": number <= bound,
        ">": number > bound,
        ">=": number >= bound,
        "=": number == bound,
        "<>": number != bound,
    }[sign]


@lru_cache(maxsize=1024)
def _pieces(section: str) -> tuple[tuple[str, str, str], ...] | None:
    """Literal texts and at most one group of digits; None if there is anything else."""
    pieces: list[tuple[str, str, str]] = []
    groups = 0
    for piece in _PIECE.finditer(section):
        if piece["digits"]:
            groups += 1
            pieces.append(("", piece["digits"], piece["power"] or ""))
        elif piece["plain"] and piece["plain"] not in _SHOWN_AS_THEY_ARE:
            return None
        else:
            pieces.append((piece["quoted"] or piece["escaped"] or piece["plain"] or "", "", ""))
    scaled = any(text == "%" for text, _, _ in pieces)
    return None if groups > 1 or scaled or not pieces else tuple(pieces)


def _digits(number: float, digits: str, power: str) -> str:
    whole, _, part = digits.partition(".")
    value = Decimal(format(number, ".15g"))
    exponent = 0
    if power and value:
        value = Context(prec=len(part) + 1, rounding=ROUND_HALF_UP).plus(value)
        exponent = value.adjusted()
        value = value.scaleb(-exponent)
    value = value.quantize(Decimal(1).scaleb(-len(part)), ROUND_HALF_UP)
    text = format(value, "f")
    optional = len(part) - len(part.rstrip("#?"))
    while optional and text.endswith("0"):
        text, optional = text[:-1], optional - 1
    text = text.rstrip(".") if part else text
    least = whole.count("0")
    before, dot, after = text.partition(".")
    before = before.zfill(least) if least else before.lstrip("0")
    return before + dot + after + (f"E{exponent:+03d}" if power else "")
