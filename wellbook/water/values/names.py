"""Printed names made comparable."""

import re
from unicodedata import normalize

_GREEK = str.maketrans({"α": " alpha ", "β": " beta ", "γ": " gamma "})


def normal_name(text: str) -> str:
    """A name as printed, without case, spacing and punctuation: `Nitrate-N` is `nitrate n`."""
    text = normalize("NFKC", text).casefold().translate(_GREEK)
    text = re.sub(r"[^a-z0-9+]+", " ", text)
    return re.sub(r" *\+ *", "+", text).strip()
