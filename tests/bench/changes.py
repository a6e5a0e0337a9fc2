"""Small changes to a module, each of which a test should notice: its mutants.

What is changed: comparisons, arithmetic, `and` and `or`, `not` and minus signs, whole numbers by
one, other figures (a `Decimal` in quotes, too) by a tenth, `True` and `False`, `min` and `max`,
`any` and `all`, what a condition asks, what a function returns, what a name is given, `break` and
`continue`, and statements made for their effect. What is not: texts, documentation, annotations,
decorators, and `strict=True`, which only guards.
"""

import ast
import copy
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from types import CodeType

_COMPARED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
_CALCULATED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}
_SWAPPED = {"min": "max", "max": "min", "any": "all", "all": "any"}
_TYPES = ("tuple[", "dict[", "Mapping[", "TypeVar(")
_SKIPPED = {"annotation", "returns", "decorator_list", "type_params", "ctx", "format_spec"}


@dataclass(frozen=True)
class Mutant:
    """A module with one change.

    Attributes:
        line: Line of the change.
        lines: First and last line of the statement that is changed.
        place: Function or class it stands in.
        change: The change in words, `before → after`, numbered where a place has it twice.
        code: The changed module.
    """

    line: int
    lines: tuple[int, int]
    place: str
    change: str
    code: CodeType


@dataclass(frozen=True)
class _Spot:
    """Where a node hangs in its tree."""

    owner: ast.AST
    field: str
    index: int | None
    node: ast.AST
    statement: ast.stmt
    place: str

    def put(self, node: ast.AST) -> None:
        if self.index is None:
            setattr(self.owner, self.field, node)
        else:
            getattr(self.owner, self.field)[self.index] = node


def mutants(source: str, filename: str) -> Iterator[Mutant]:
    """Every mutant of a module, in the order of its lines."""
    tree = ast.parse(source)
    times: Counter[tuple[str, str]] = Counter()
    for spot in list(_spots(tree, tree.body[0], "")):
        for new in _changes(spot):
            ast.copy_location(new, spot.node)
            for inside in ast.walk(new):
                if "lineno" in inside._attributes and not hasattr(inside, "lineno"):
                    ast.copy_location(inside, spot.node)
            before, after = _told(spot.node), _told(new)
            spot.put(new)
            try:
                code = compile(tree, filename, "exec")
            finally:
                spot.put(spot.node)
            first = spot.statement.lineno
            lines = (first, _header_end(spot.statement))
            change = f"{before} → {after}"
            times[spot.place, change] += 1
            if times[spot.place, change] > 1:
                change += f" ({times[spot.place, change]})"
            line = getattr(spot.node, "lineno", first)
            yield Mutant(line, lines, spot.place, change, code)


def _header_end(statement: ast.stmt) -> int:
    """The last line of a statement, without the block under it."""
    body = getattr(statement, "body", None)
    if isinstance(body, list) and body:
        return max(statement.lineno, body[0].lineno - 1)
    return statement.end_lineno or statement.lineno


def _told(node: ast.AST) -> str:
    text = " ".join(ast.unparse(node).split())
    return text if len(text) <= 90 else text[:87] + "…"


def _spots(node: ast.AST, statement: ast.stmt, place: str) -> Iterator[_Spot]:
    for field, value in ast.iter_fields(node):
        if field in _SKIPPED or (isinstance(node, ast.keyword) and node.arg == "strict"):
            continue
        held = list(enumerate(value)) if isinstance(value, list) else [(None, value)]
        for index, child in held:
            if not isinstance(child, ast.AST) or _is_words(child):
                continue
            inside = child if isinstance(child, ast.stmt) else statement
            yield _Spot(node, field, index, child, inside, place)
            name = getattr(child, "name", "") if isinstance(child, _NAMED) else ""
            yield from _spots(child, inside, f"{place}.{name}".strip(".") if name else place)


_NAMED = (ast.FunctionDef, ast.ClassDef)


def _is_words(node: ast.AST) -> bool:
    """Documentation, imports, lists of names, and blocks for the type checker."""
    if isinstance(node, ast.Import | ast.ImportFrom):
        return True
    if isinstance(node, ast.If):
        return ast.unparse(node.test).endswith("TYPE_CHECKING")
    if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__":
        return True
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def _changes(spot: _Spot) -> Iterator[ast.AST]:
    node = spot.node
    if isinstance(node, ast.Compare):
        yield from _comparisons(node)
    elif isinstance(node, ast.BinOp) and type(node.op) in _CALCULATED:
        if not _is_text(node.left) and not _is_text(node.right):
            yield ast.BinOp(node.left, _CALCULATED[type(node.op)](), node.right)
    elif isinstance(node, ast.AugAssign) and type(node.op) in _CALCULATED:
        yield ast.AugAssign(node.target, _CALCULATED[type(node.op)](), node.value)
    elif isinstance(node, ast.BoolOp):
        other = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        yield ast.BoolOp(other, node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield node.operand
    elif isinstance(node, ast.Constant):
        yield from _constants(spot, node)
    elif isinstance(node, ast.Name) and spot.field == "func" and node.id in _SWAPPED:
        yield ast.Name(_SWAPPED[node.id], ast.Load())
    yield from _statements(node)
    if spot.field in {"test", "ifs"} and not isinstance(node, ast.Compare | ast.UnaryOp):
        yield ast.UnaryOp(ast.Not(), node)


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


def _comparisons(node: ast.Compare) -> Iterator[ast.AST]:
    for number, operator in enumerate(node.ops):
        for other in _COMPARED[type(operator)]:
            ops = [*node.ops[:number], other(), *node.ops[number + 1 :]]
            yield ast.Compare(node.left, ops, node.comparators)


def _constants(spot: _Spot, node: ast.Constant) -> Iterator[ast.AST]:
    value = node.value
    if isinstance(value, bool):
        yield ast.Constant(not value)
    elif isinstance(value, int):
        yield ast.Constant(value + 1)
        yield ast.Constant(value - 1)
    elif isinstance(value, float):
        yield ast.Constant(value * 1.1 or 0.1)
    elif isinstance(value, str) and _is_decimal(spot.owner):
        yield ast.BinOp(node, ast.Add(), ast.Constant("1" if "." in value else ".1"))


def _is_decimal(owner: ast.AST) -> bool:
    return isinstance(owner, ast.Call) and ast.unparse(owner.func) == "Decimal"


def _statements(node: ast.AST) -> Iterator[ast.AST]:
    if isinstance(node, ast.Return | ast.Assign | ast.AnnAssign) and _can_be_lost(node.value):
        changed = copy.copy(node)
        changed.value = ast.Constant("changed" if isinstance(node.value, ast.Constant) else None)
        yield changed
    elif isinstance(node, ast.Expr):
        yield ast.Pass()
    elif isinstance(node, ast.Break):
        yield ast.Continue()
    elif isinstance(node, ast.Continue):
        yield ast.Break()


def _can_be_lost(value: ast.AST | None) -> bool:
    """Whether a value is worth losing: it is no figure, which is changed itself, and no type."""
    if isinstance(value, ast.Constant):
        return value.value == ""
    return value is not None and not ast.unparse(value).startswith(_TYPES)
