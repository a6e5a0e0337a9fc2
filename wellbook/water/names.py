"""Printed names made comparable."""

import re

_SUBSCRIPTS = str.maketrans("₀₁₂₃₄₅₆₇₈₉⁺⁻", "0123456789+-")


def normal_name(text: str) -> str:
    """A name as printed, without case, spacing and punctuation: `Nitrate-N` is `nitrate n`."""
    text = text.translate(_SUBSCRIPTS).casefold()
    return re.sub(r"[^a-z0-9+]+", " ", text).strip()
