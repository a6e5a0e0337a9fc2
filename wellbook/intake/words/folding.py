"""Words without their accents, for looking them up."""

from functools import lru_cache
from unicodedata import combining, normalize


@lru_cache(maxsize=8192)
def folded(text: str) -> str:
    """A text in lower case, without accents, with single blanks."""
    if not text.isascii():
        text = "".join(sign for sign in normalize("NFKD", text) if not combining(sign))
    return " ".join(text.casefold().split())
