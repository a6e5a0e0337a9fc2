"""Names of parameters within sentences."""

import re
from dataclasses import dataclass, field

from wellbook.intake.words import lab_names
from wellbook.intake.words.doubts import germ_names, means_germs
from wellbook.intake.words.names import FRACTIONS, read_name
from wellbook.water.units.basis import SPELLED_OUT
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.signs import folded

Named = tuple[int, int, str]  # start, end and text

_WORD = re.compile(r"[^\W\d_](?:[\w+-]|(?<![dlDL])['’])*(?:\.(?= ?(?i:coli)\b))?")
_COMPOUND = re.compile(r"(?:s?gehalte?|s?konzentration|werte?)$")
_WITH_FIGURE = re.compile(r"\s\d")  # `sodium at 61 mg/L` is more than a name
_MOST_WORDS = 150  # of a sentence among which names are looked for; our own bounds
_LONGEST = 4  # words of a name
# The basis of the figure before it, such as `as N`, `en NO3)` and that of `mg NO3/L`, begins none.
_BASIS = re.compile(
    rf"\b{SPELLED_OUT}|(?<=/[lL])[ (]+(?:[NPSC]|[A-Z][A-Za-z]*[2345₂₃₄₅])\b(?!\s*[:=]?\s*[<\d])"
    r"|(?<=g )[A-Z][A-Za-z\d]{0,5}(?=/[lL]\b)"
)
_SYMBOL = 2  # letters of the symbol of an element
_SYMBOL_FIGURE = re.compile(r"^(?::| =| was| is)? ?[<\d]")


@dataclass(slots=True)
class Names:
    """Finds names; what it knows of a run of words is worked out once.

    Attributes:
        catalogue: To know a parameter's name.
    """

    catalogue: Catalogue
    _words: frozenset[str] = frozenset()  # of which names are made
    _known: dict[str, bool] = field(default_factory=dict)

    def __post_init__(self) -> None:
        names = [name for one in self.catalogue.parameters.values()
                 for name in (one.key, one.name, *one.aliases)]  # fmt: skip
        names += [*lab_names.names(), *germ_names(), *FRACTIONS]
        self._words = frozenset(word for name in names for word in _words_of(name))

    def within(self, sentence: str) -> list[Named]:
        """Every name of a parameter in a sentence, the longest that fits at each place."""
        found: list[Named] = []
        tokens = list(_WORD.finditer(sentence))[:_MOST_WORDS]
        bases = [found.span() for found in _BASIS.finditer(sentence)]
        may_be = [self._may_be(token[0]) for token in tokens]
        begins = [not any(a <= token.start() < b for a, b in bases) for token in tokens]
        n = 0
        while n < len(tokens):
            for last in range(min(n + _LONGEST, len(tokens)) - 1, n - 1, -1):
                if not (begins[n] and may_be[n] and may_be[last]):
                    continue
                start, end = tokens[n].start(), tokens[last].end()
                if self._is_name(sentence[start:end], sentence[end : end + 6]):
                    end += "(" in sentence[start:end] and sentence[end : end + 1] == ")"
                    found.append((start, end, _simple(sentence[start:end])))
                    n = last
                    break
            n += 1
        return found

    def _may_be(self, word: str) -> bool:
        plain = _plain(word)
        return plain in self._words or _simple(plain) in self._words

    def _is_name(self, text: str, rest: str) -> bool:
        """Whether words name a parameter; a symbol such as `Fe` only right before its figure."""
        if text.count(" ") != len(text.split()) - 1 or _WITH_FIGURE.search(text):
            return False
        if len(text) <= _SYMBOL and text.casefold() != "ph":
            is_symbol = len(text) > 1 and text[0].isupper() and text[1].islower()
            return is_symbol and bool(_SYMBOL_FIGURE.match(rest)) and self._knows(text)
        return self._knows(text) or self._knows(_simple(text))

    def _knows(self, text: str) -> bool:
        known = self._known.get(text)
        if known is None:
            named = bool(text) and read_name(text, self.catalogue).parameter is not None
            known = self._known[text] = named or means_germs(text)
        return known


def _simple(word: str) -> str:
    """A word without the end of a compound, such as `Nitrat` of `Nitratgehalt`."""
    return _COMPOUND.sub("", word).rstrip("-")


def _words_of(name: str) -> list[str]:
    return [_plain(word) for word in _WORD.findall(name)]


def _plain(word: str) -> str:
    return folded(word).strip(".'’")
