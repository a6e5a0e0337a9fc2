"""Units and bases in the language of now, as its standards print them; data keep them as they are.

Units of letters and signs alone (`mg/L`, `µS/cm`) are the same everywhere.
"""

import re

from wellbook.support.translation import N_, _, pgettext

_JOINED, _SPACE = "\u2060", "\u00a0"  # word joiner, space where no line ends
_IN_TEXT = re.compile(
    r"""(?<![\w/])
    (?: (?:[^\W\d_]+\ )? (?:per|por|cada)\ (?:\d+\ )? m?L\b
      | [^\W\d_]{1,5} (?:/ (?:\d+\ )? [^\W\d_][\w³²]{0,3})+ (?![\w/]) )
    (?: \ (?:(?:as|como)\ [A-Z]\w* | \([A-Z]\w*\)) )?""",
    re.VERBOSE,
)

_SAID = frozenset(
    {
        *(N_("per 100 mL"), N_("CFU per 100 mL"), N_("MPN per 100 mL")),
        *(N_("per mL"), N_("CFU per mL"), N_("MPN per mL"), N_("per L")),
        *(N_("per 10 mL"), N_("per 250 mL"), N_("per 500 mL"), N_("CFU"), N_("MPN")),
        *(N_("pH units"), N_("color units"), N_("NTU"), N_("FNU"), N_("JTU")),
        *(N_("mSv/yr"), N_("mrem/yr"), N_("present or absent"), N_("tons/acre-ft")),
    }
)


def said(unit: str) -> str:
    """A unit of ours with its basis, if it has one; what a lab spelled in its own way stays so."""
    label, _sign, form = f" {unit}".partition(" as ")
    label = label.strip()
    words = _(label) if label in _SAID else label
    basis = pgettext("basis", "as {form}").format(form=form) if form else ""
    return " ".join(filter(None, (words, basis)))


def unbroken(text: str) -> str:
    """The text with its units so joined that no line ends within one, nor before its basis."""
    return _IN_TEXT.sub(
        lambda found: found[0].replace("/", f"/{_JOINED}").replace(" ", _SPACE), text
    )
