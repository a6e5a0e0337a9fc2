"""What is odd about one row of a table."""

import re
from collections.abc import Container, Mapping, Sequence
from decimal import Decimal

from wellbook.book.rows import NewResult
from wellbook.intake.words.asides import UPKEEP, is_care, section
from wellbook.intake.words.lab_words import is_bad, is_fine, says_some
from wellbook.intake.words.log import Trouble
from wellbook.intake.words.names import Name
from wellbook.intake.words.roles import Role
from wellbook.support.translation import N_, _
from wellbook.water.units import basis as bases
from wellbook.water.units.conversion import NoConversion, convert, understand
from wellbook.water.units.spellings import carries_basis
from wellbook.water.values.findings import Severity
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.wording.reasons import obstacle

_CHECK = re.compile(
    r"blank|spike|surrogate|recovery|calibration|internal standard|reference material"
    r"|\blab\w*[\s_-]+dup|control sample-(?!field rep)|lab\w* control"
    r"|\bcontrol\b(?! (?:sample|en (?:el )?grifo|del? grifo))"
    r"|^control sample$|%\s?rec|\b(?:di|deioni[sz]ed|reagent) water\b"
    r"|\bblan(?:co|c)s?\b|blind(?:wert|probe)|laborkontroll|laborduplikat|qualit[äa]tskontroll"
    r"|contr[ôo]le (?:de |du )?(?:qualit|labo)|muestra fortificada|dop[ée]e?s?\b|aufgestockt"
    r"|(?:duplicado|doublon) (?:de |du )?labo"
    r"|^(?:lcsd?|msd|mb|lrb|lfb|lfm|crm|ccv|icv)[\s:_-]"
    r"|(?:leer|null)(?:wert|probe)|\bt[ée]moin\b|ajouts? dos[ée]|fortificad[oa]|adicionad[oa]"
    r"|^patr[oó]n(?:es)?\b|^[ée]talon|mat[ée]ria(?:l|u) de r[ée]f[ée]renc"
    r"|referenz(?:material|probe)|aufstockung|(?:standard|kalibrier|eich)l[öo]sung|kalibrierstandard|ringversuch"
    r"|kontroll(?:probe|standard)|duplicata de(?:l)? labora|\blabor[\s_-]?(?:doppel|duplikat)",
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
_WITHDRAWN = re.compile(
    r"^(?:superseded|cancel+ed|void(?:ed)?|withdrawn|replaced|deleted|entered in error)\b",
    re.IGNORECASE,
)
_OTHER_MEDIA = re.compile(
    r"soil|sediment|tissue|\bair\b|sludge|solid|biolog|habitat", re.IGNORECASE
)
_NUMBER_KINDS = {Kind.NUMBER, Kind.BELOW, Kind.ABOVE}

# What a line tells of a sample that is the household's; words of the trade, from memory.
_OWN = re.compile(
    r"\b(?:(?:drinking|potable|ground|well|borehole|spring|tap|raw|treated|untreated|softened|filtered"
    r"|domestic|private|household|residential|finished|cold|hot)[\s-]*)+(?:water|well|supply|home)?\b"
    r"|^(?:water|water sample|sample of water|[dgp]?w|wg|aq|aqueous|liquid)$"
    r"|^(?:grab|composite|regular|normal|original|routine|client|field|annual|real estate|special"
    r"|compliance|investigative|confirmation|repeat|resample|retest|follow[\s-]?up|environmental)?"
    r"[\s-]*(?:grab|sample|test)?$"
    r"|\b(?:first|1st|second|2nd)[\s-]*(?:draw|flush)|\bflush(?:ed)?\b|\bstagnation\b"
    r"|\bagua (?:potable|natural|de (?:pozo|sondeo|grifo|consumo|manantial|bebida))"
    r"|\bagua (?:subterr[aá]nea|cruda|tratada)"
    r"|^(?:muestra )?(?:de )?agua$|\bpozo\b|^(?:muestra )?(?:puntual|simple|normal|rutina)$"
    r"|\beau (?:potable|destin[ée]e|de (?:puits|forage|source|consommation|boisson)|du robinet)"
    r"|\beau (?:souterraine|brute|trait[ée]e)|^eau$|\bpuits\b"
    r"|^(?:pr[ée]l[èe]vement )?(?:ponctuel|instantan[ée])$"
    r"|(?:trink|grund|brunnen|leitungs|roh|rein|quell)wasser|^wasser(?:probe)?$|\bbrunnen\b"
    r"|^(?:stich|einzel|zufalls|sch[öo]pf|pump)probe$|^(?:haus)?brunnen$|^eigenwasser",
    re.IGNORECASE,
)
_AND = re.compile(r"\s*(?:[/&+;]|\b(?:and|or|y|o|et|ou|und|oder)\b)\s*", re.IGNORECASE)
_OF_SAMPLES = (Role.KIND, Role.MEDIUM)

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
        if _is_check(role, text) and not (role in _OF_SAMPLES and _is_of_both(text)):
            return Trouble(
                "quality_control",
                _("Left out as the lab’s own check: {text}.").format(text=text),
                Severity.NOTE,
            )
    status = cells.get(Role.STATUS, "")
    if status and _WITHDRAWN.search(status):
        return Trouble(
            "withdrawn",
            _("Left out, for the lab has withdrawn it: {text}.").format(text=status),
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


def _is_check(role: Role, text: str) -> bool:
    is_kind = role in _OF_SAMPLES and bool(_CHECK_LETTERS.match(text) or section([text]))
    return is_kind or bool(_CHECK.search(text))


def _is_of_both(text: str) -> bool:
    """Whether a kind of sample names a check and the household's water, as `Well water, blank`."""
    parts = [part for part in _AND.split(text) if part]
    are_checks = {_is_check(Role.KIND, part) for part in parts}
    return len(are_checks) > 1 and any(_OWN.search(part) for part in parts)


def open_kind(
    facts: Mapping[Role, str], columns: Container[Role], below: str = ""
) -> Trouble | None:
    """That a line beside a table leaves open whether its sample is the household's water.

    Args:
        facts: What lines over the table tell.
        columns: What its columns tell; where one says another kind than the line, that is asked.
        below: The kind that a line below it tells, which may be of another sample.
    """
    if below and (_is_other(Role.KIND, below) or not _OWN.search(below)):
        return _asked(below)
    for role in _OF_SAMPLES:
        text = facts.get(role, "")
        is_other = _is_other(role, text)
        is_settled = is_other and role not in columns and not _is_of_both(text)
        if text and not is_settled and (is_other or not _OWN.search(text)):
            return _asked(text)
    return None


def _is_other(role: Role, text: str) -> bool:
    return _is_check(role, text) or bool(_OTHER_MEDIA.search(text))


def _asked(kind: str) -> Trouble:
    said = _("“{kind}” is printed beside readings as the kind of sample: is it your water?")
    return Trouble("open_kind", said.format(kind=kind))


def is_second(cells: Mapping[Role, str]) -> bool:
    """Whether a row tells of a second bottle of the same water."""
    return bool(_REPEAT.search(cells.get(Role.KIND, "")))


def _rejected(reading: Reading) -> Trouble | None:
    """That a lab rejected a reading, which is kept and asked about."""
    if Flag.REJECTED not in reading.flags:
        return None
    said = _("“{text}” is marked as rejected: ask the lab whether it holds.")
    return Trouble("rejected", said.format(text=reading.text))


def of_care(result: NewResult) -> Trouble | None:
    """That a line of no known parameter is of the well's care.

    With a unit of water, a sign or a word for what was found it is asked about instead.
    """
    is_plain = result.reading.kind in {Kind.NUMBER, Kind.TEXT, Kind.NONE}
    if result.parameter or not is_plain or understand(result.reading.unit):
        return None
    if not is_care(result.name):
        return None
    said = _("“{heading}”: {other}").format(heading=result.name, other=_(UPKEEP))
    return Trouble("care", said, Severity.NOTE)


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
        _rejected(reading),
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


def two_units(name: Name, printed: str, column: str) -> Trouble | None:
    """That a name says another unit than the column of units beside it."""
    parameter = name.parameter
    if not (parameter and name.unit and column) or name.unit == column:
        return None
    basis = parameter.basis
    try:
        one = convert(Decimal(1), name.unit, basis, column, basis, parameter).number
    except NoConversion:
        return None
    if one == 1:
        return None
    text = _("{name} says {one} and {other} stands beside it: look at the report for its unit.")
    return Trouble("unfit_unit", text.format(name=printed, one=name.unit, other=column))


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


def fits(unit: str, parameter: Parameter | None) -> bool:
    """Whether a unit that is told of all results can be the one of a parameter."""
    one, usual = understand(unit), understand(parameter.unit) if parameter else None
    if parameter is None or one is None or usual is None or one.quantity == usual.quantity:
        return True
    try:
        convert(Decimal(1), unit, parameter.basis, parameter.unit, parameter.basis, parameter)
    except NoConversion:
        return False
    return True


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
