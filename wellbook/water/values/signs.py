"""Printed signs and names made plain, so that one spelling stands for all that are printed."""

import re
from functools import lru_cache
from unicodedata import combining, normalize

_SIGNS = str.maketrans(
    {
        "≤": "<=",
        "≦": "<=",
        "⩽": "<=",
        "≥": ">=",
        "≧": ">=",
        "⩾": ">=",
        "＜": "<",
        "﹤": "<",
        "‹": "<",
        "＞": ">",
        "﹥": ">",
        "›": ">",
        "＝": "=",
        "µ": "u",
        "μ": "u",
        "−": "-",
        "‐": "-",
        "‑": "-",
        "–": "-",
        "—": "-",
        "－": "-",
        "·": ".",
        "⋅": ".",
        "×": "x",
        "✕": "x",
        "∕": "/",
        "⁄": "/",
        "／": "/",
        "％": "%",
        "º": "°",
        "˚": "°",
        "℃": "°c",
        "℉": "°f",
        "＋": "+",
        "．": ".",
        "，": ",",
        "\u00ad": "",
        "\u200b": "",
        "\ufeff": "",
    }
)
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+")
_LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")
_RAISED_RUN = re.compile("[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+")
_GREEK = str.maketrans({"α": " alpha ", "β": " beta ", "γ": " gamma "})
_NARROW = "\u00a0\u2007\u2009\u202f"
_GROUPED = re.compile(rf"(?<=\d)[{_NARROW}](?=\d{{3}}(?!\d))")


def plain(text: str) -> str:
    """A printed text with plain signs, single spaces and no space around it.

    Raised digits become `^digits`; a narrow or unbreakable space between groups of three digits
    is a thousands mark and goes away.
    """
    if text.isascii():
        return " ".join(text.split())
    text = _RAISED_RUN.sub(lambda run: "^" + run.group().translate(_RAISED), text)
    text = _GROUPED.sub("", text.translate(_LOWERED))
    return " ".join(text.translate(_SIGNS).split())


def normal_name(text: str) -> str:
    """A name as printed, without case, spacing and punctuation: `Nitrate-N` is `nitrate n`."""
    text = normalize("NFKC", text).casefold().translate(_GREEK)
    text = re.sub(r"[^a-z0-9+]+", " ", text)
    return re.sub(r" *\+ *", "+", text).strip()


@lru_cache(maxsize=8192)
def folded(text: str) -> str:
    """A text in lower case, without accents, with single blanks: words as they are looked up."""
    if not text.isascii():
        text = "".join(sign for sign in normalize("NFKD", text) if not combining(sign))
    return " ".join(text.casefold().split())
