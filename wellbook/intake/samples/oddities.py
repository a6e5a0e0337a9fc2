"""What is odd about one row of a table."""

import re
from collections.abc import Mapping, Sequence

from wellbook.book.rows import NewResult
from wellbook.intake.words.asides import section
from wellbook.intake.words.lab_words import is_bad, is_fine, says_some
from wellbook.intake.words.log import Trouble
from wellbook.intake.words.roles import Role
from wellbook.support.translation import N_, _
from wellbook.water.units import basis as bases
from wellbook.water.units.conversion import NoConversion, convert, understand
from wellbook.water.units.spellings import carries_basis
from wellbook.water.values.findings import Severity
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Kind, Reading
from wellbook.wording.reasons import obstacle

_CHECK = re.compile(
    r"blank|spike|surrogate|recovery|calibration|internal standard|reference material"
    r"|\blab\w*[\s_-]+dup|control sample-(?!field rep)|\bcontrol\b(?! sample)|lab\w* control"
    r"|^control sample$|%\s?rec"
    r"|^(?:lcsd?|msd|mb|lrb|lfb|lfm|crm|ccv|icv)[\s:_-]"
    r"|\bblanco\b|\bblancs?\b|(?:blind|leer|null)(?:wert|probe)|\bt[ée]moin\b|ajouts? dos[ée]"
    r"|\bdop[ée]e?\b|fortificad[oa]|adicionad[oa]|aufgestockt|kontroll(?:probe|standard)"
    r"|(?:duplicado|doublon|duplicata) de(?:l)? labora|\blabor[\s_-]?(?:doppel|duplikat)",
    re.IGNORECASE,
)
# In the name or number of a sample: more letters, because places have names such as Spike Road.
_CHECK_SAMPLE = re.compile(
    r"\b(?:method|trip|field|lab\w*|equipment|rinse|rinsate|reagent|instrument|filter|calibration)"
    r"[\s_-]+blank\b|^blank\b|\bblank$|matrix spike|\bspiked?$|^spike\b|control sample|lab\w* control"  # noqa: E501
    r"|\b(?:control|check|calibration|reference) (?:std|standard|check)\b"
    r"|^(?:lab\w* )?q[ac](?: ?/ ?qc)?$|reference material|surrogate"
    r"|\b(?:lab\w*|matrix)[\s_-]+dup\w*|[\s_-](?:dup|duplicate)$"
    r"|^(?:lcsd?|msd?|mb|lrb|lfb|lfm|crm|qcs?|ccv|icv|eb|tb|fb)(?:[\s_-]?\d*)$|[\s_-](?:lcsd?|msd?|mb)$"
    r"|^blanco (?:de|del)\b|^blanc (?:de|du)\b|(?:blind|leer)(?:wert|probe)\b",
    re.IGNORECASE,
)
_CHECK_LETTERS = re.compile(
    r"^(lcsd?|lcs/lcsd|msd?|ms/msd|mb|[mltfer]?blk|lrb|lfb|lfm|crm|qcs?|ccv|icv|eb|tb|fb|surr?|spk)$",
    re.IGNORECASE,
)
_REPEAT = re.compile(
    r"replicate|duplicate|\bdup\b|split|duplicad[oa]|r[ée]plica|doublon|duplicata|doppel(?:probe|best)"
    r"|parallelprobe|zweitprobe",
    re.IGNORECASE,
)
_OTHER_MEDIA = re.compile(
    r"soil|sediment|tissue|\bair\b|sludge|solid|biolog|habitat", re.IGNORECASE
)
_NUMBER_KINDS = {Kind.NUMBER, Kind.BELOW, Kind.ABOVE}

NAMELESS = Trouble(
    "nameless",
    N_(
        "A result stands there without the name of what was measured: write the name into the "
        "file, "
        "or take the row out."
    ),
    Severity.STOP,
)

SECOND_BOTTLE = Trouble(
    "second_bottle",
    N_(
        "A duplicate of a sample is kept as such: leave it out if it should not count beside the "
        "first bottle."
    ),
)


def left_out(cells: Mapping[Role, str]) -> Trouble | None:
    """Why a row is no result of the household's water."""
    for role in (Role.KIND, Role.NAME, Role.UNIT, Role.MEDIUM):
        text = cells.get(role, "")
        is_kind = role is Role.KIND and bool(_CHECK_LETTERS.match(text) or section([text]))
        if is_kind or _CHECK.search(text):
            return Trouble(
                "quality_control",
                _("Left out as the lab’s own check: {text}.").format(text=text),
                Severity.NOTE,
            )
    medium = cells.get(Role.MEDIUM, "")
    if _OTHER_MEDIA.search(medium):
        return Trouble(
            "not_water",
            _("Left out because it is not of water: {medium}.").format(medium=medium),
            Severity.NOTE,
        )
    return None


def is_second(cells: Mapping[Role, str]) -> bool:
    """Whether a row tells of a second bottle of the same water."""
    return bool(_REPEAT.search(cells.get(Role.KIND, "")))


def check_sample(cells: Mapping[Role, str]) -> Trouble | None:
    """That the name or number of a sample is that of a check of the lab's own."""
    for role in (Role.POINT, Role.CLIENT_NUMBER, Role.NUMBER):
        text = cells.get(role, "")
        if _CHECK_SAMPLE.search(text):
            return Trouble(
                "quality_control",
                _("Left out as the lab’s own check: {text}.").format(text=text),
                Severity.NOTE,
            )
    return None


def unknown(printed: str, parameter: Parameter | None) -> Trouble | None:
    """That a name is not one we know."""
    if parameter or not printed:
        return None
    return Trouble(
        "unknown_parameter",
        _(
            "“{printed}” is not in the list of parameters: its results are kept as printed, "
            "without "
            "limits and charts."
        ).format(printed=printed),
    )


def oddities(result: NewResult, parameter: Parameter | None) -> list[Trouble]:
    """What is odd about one result, its unit first."""
    reading, name = result.reading, result.name
    odd = [
        _odd_unit(reading, name, parameter),
        _unfit_unit(reading, name, parameter),
        _odd_text(reading, name),
        _only_fine(reading, name),
    ]
    if (
        parameter
        and reading.kind in _NUMBER_KINDS
        and not reading.basis
        and not carries_basis(reading.unit)
        and len(bases.choices(parameter)) > 1
    ):
        odd.append(_no_basis(name, bases.choices(parameter)))
    return [trouble for trouble in odd if trouble]


def _no_basis(name: str, choices: Sequence[str]) -> Trouble:
    """That it is open how a figure is counted; a formula may only name what was looked for."""
    formula, either = bases.formula_in(name), " or ".join(choices)
    if formula in choices:
        said = _(
            "{name}: nothing says that the formula in brackets is its basis ({either}). Look for "
            "it on the report, or ask the lab."
        )
    else:
        said = _("{name} is printed without its basis ({either}): look for it on the report.")
    return Trouble("no_basis", said.format(name=name, either=either))


def _odd_unit(reading: Reading, name: str, parameter: Parameter | None) -> Trouble | None:
    if reading.kind not in _NUMBER_KINDS or reading.number is None:
        return None
    if reading.unit and understand(reading.unit) is None:
        known = parameter is not None
        advice = (
            _("correct it in the file, or ask the lab") if known else _("it is kept as printed")
        )
        return Trouble(
            "unknown_unit",
            _("The unit “{unit}” of {name} is not known: {advice}.").format(
                unit=reading.unit, name=name, advice=advice
            ),
            Severity.STOP if known else Severity.ASK,
        )
    if not reading.unit and parameter and parameter.unit not in {"pH units", "1"}:
        return Trouble(
            "no_unit",
            _("{name} is printed without a unit: look for it on the report.").format(name=name),
        )
    return None


def _unfit_unit(reading: Reading, name: str, parameter: Parameter | None) -> Trouble | None:
    """That a unit is known, but not one in which this can be measured."""
    unit = understand(reading.unit) if reading.unit else None
    usual = understand(parameter.unit) if parameter else None
    if parameter is None or unit is None or usual is None or parameter.scale != "number":
        return None
    if reading.number is None or unit.quantity == usual.quantity:
        return None
    try:
        convert(
            reading.number, reading.unit, reading.basis, parameter.unit, parameter.basis, parameter
        )
    except NoConversion as why:
        return Trouble(
            "unfit_unit",
            _("{name}: {why} Kept as printed, and not judged.").format(
                name=name, why=obstacle(why)
            ),
        )
    return None


def _only_fine(reading: Reading, name: str) -> Trouble | None:
    """That a household noted only that a test of bacteria was in order."""
    answer = says_some(reading.text)
    if reading.kind is Kind.PRESENT and (is_bad(reading.text) or answer):
        said = _("“{text}” is noted for {name}: were some found?")
        return Trouble("only_bad", said.format(text=reading.text, name=name))
    if reading.kind is not Kind.ABSENT or not (is_fine(reading.text) or answer is False):
        return None
    text = _("“{text}” is noted for {name}: were none found?").format(text=reading.text, name=name)
    return Trouble("only_fine", text)


def _odd_text(reading: Reading, name: str) -> Trouble | None:
    if reading.kind is Kind.TEXT:
        text = _(
            "The result “{reading}” of {name} is not understood: kept as text, not judged."
        ).format(reading=reading.text, name=name)
        return Trouble("odd_result", text)
    if not reading.text.strip() and reading.kind is Kind.NONE:
        return Trouble(
            "no_result",
            _("{name} stands there without a result: kept as not analysed.").format(name=name),
        )
    return None
