"""How a figure is counted, and whether a formula in brackets, as in `Nitrate (NO3)`, tells it.

A lab may mean by it only the ion that it looked for, and count it as N. What is counted as NO3 is
less than half as much as the same figure counted as N, so the formula is believed where something
else in the file says the same, and otherwise asked about.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal

from wellbook.intake.tables.cells import at
from wellbook.intake.tables.tables import Table
from wellbook.intake.words import lab_names
from wellbook.intake.words.asides import LIMIT, aside
from wellbook.intake.words.log import Trouble
from wellbook.intake.words.names import read_fraction, read_name
from wellbook.intake.words.preamble import Facts
from wellbook.intake.words.roles import Role
from wellbook.support.translation import _
from wellbook.water.units import basis as bases
from wellbook.water.units.conversion import basis_in, understand
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Severity
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.signs import folded

_OF_IONS = "de"  # each law in this language counts the ions; in others some count as N


def believed(tables: Iterable[Table], catalogue: Catalogue) -> frozenset[str]:
    """The printed names whose formula is how their figures are counted.

    Names are believed where one of their rows prints a limit that laws set in that form and in no
    other, or where the names of the file are German; one name also where the file counts the
    same parameter as N (or P) under another. None is, whose own limit says otherwise.
    """
    evidence = _Evidence(catalogue)
    for table in tables:
        if Role.NAME in table.columns:
            evidence.take(table)
    return evidence.believed()


@dataclass(slots=True)
class _Evidence:
    """What a file tells of its formulas.

    Attributes:
        catalogue: To know names and limits.
    """

    catalogue: Catalogue
    _named: dict[str, tuple[str, str]] = field(default_factory=dict)
    _limits: dict[str, set[str]] = field(default_factory=dict)
    _counted: set[tuple[str, str]] = field(default_factory=set)
    _languages: set[str] = field(default_factory=set)

    def take(self, table: Table) -> None:
        """Take in the names of a table, and the limits beside those with a formula."""
        columns = table.columns
        limits = [i for i in range(len(table.heading)) if aside(at(table.heading, i)) == LIMIT]
        names = {row[columns[Role.NAME]].strip() for row in table.rows}
        for name in names - self._named.keys():
            self._meet(name)
        if not any(self._named[name][1] for name in names):
            return
        for row in table.rows:
            name = at(row, columns[Role.NAME])
            key, formula = self._named[name]
            if formula:
                unit = at(row, columns[Role.UNIT]) if Role.UNIT in columns else table.unit
                of_row = self._limits.setdefault(name, set())
                of_row |= {_form_of_limit(key, at(row, i), unit, self.catalogue) for i in limits}

    def _meet(self, name: str) -> None:
        found = read_name(name, self.catalogue)
        self._named[name] = ("", "")
        if found.parameter is None:
            return
        formula = bases.formula_in(name)
        self._counted.add((found.parameter.key, found.basis))
        self._languages |= lab_names.languages(name, self.catalogue)
        if formula in bases.choices(found.parameter):
            self._named[name] = (found.parameter.key, formula)

    def believed(self) -> frozenset[str]:
        """The names."""
        told = {name: self._limits[name] - {""} for name, (_k, form) in self._named.items() if form}
        is_of_ions = _OF_IONS in self._languages or any(
            told[name] == {self._named[name][1]} for name in told
        )
        return frozenset(
            name
            for name, forms in told.items()
            if not forms - {self._named[name][1]} and (is_of_ions or self._is_beside_another(name))
        )

    def _is_beside_another(self, name: str) -> bool:
        key, formula = self._named[name]
        return bool(self._counted & {(key, form) for form in ("as N", "as P") if form != formula})


# Words of such a column that say nothing of the form in which a figure is counted.
_NO_FORM = re.compile(
    r"^(?:[\W_]*$|(?:n/?[ad]|none|wet|dry|as (?:rec\w*|is)|arcv|whole|water|(?:un)?filtered|diss\w*"
    r"|total\w*|ningun[oa]|sin|sans|aucune?|keine?|ohne)\b)"
)


def basis_of(
    cells: Facts, unit: str, named: str, parameter: Parameter | None = None
) -> tuple[str, Trouble | None]:
    """The basis that a row prints, in its own column, in the unit or in the name."""
    column = cells.get(Role.BASIS, "").strip()
    told = bases.understand_basis(column) if column else ""
    if column and not told and parameter and not _is_no_form(column, parameter):
        odd = _("The basis “{basis}” is not understood: look for it on the report, or ask the lab.")
        return basis_in(unit) or named, Trouble("odd_basis", odd.format(basis=column))
    first = told or basis_in(unit) or named
    others = {text for text in (basis_in(unit), named) if text} - {first}
    if not others:
        return first, None
    clash = _(
        "Two bases are printed for one result, “{first}” and “{others}”: ask the lab."
    ).format(first=first, others=others.pop())
    return first, Trouble("two_bases", clash)


def _is_no_form(column: str, parameter: Parameter) -> bool:
    """Whether a text in the column of bases names no form, or the one there is."""
    return bool(_NO_FORM.match(folded(column))) or bases.is_itself(column, parameter)


def _form_of_limit(key: str, text: str, unit: str, catalogue: Catalogue) -> str:
    """The one form in which laws set a printed figure as the limit of a parameter; or empty."""
    try:
        figure = Decimal(text.strip("<≤ ").replace(",", "."))
    except ArithmeticError:
        return ""
    forms = {
        one.basis
        for one in catalogue.limits_of(key)
        if one.high == figure and (not unit or understand(unit) == understand(one.unit))
    }
    return forms.pop() if len(forms) == 1 else ""


def fraction_of(cells: Facts, named: str) -> tuple[str, Trouble | None]:
    """The fraction of a result, and that its column tells one that is not known."""
    column = cells.get(Role.FRACTION, "")
    told = read_fraction(column) if column else ""
    if told is None:
        text = _(
            "The fraction “{column}” is neither total nor dissolved: limits may not apply to it."
        ).format(column=column)
        return column, Trouble("odd_fraction", text, Severity.NOTE)
    return told or named, None
