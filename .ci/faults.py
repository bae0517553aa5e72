"""Small faults that a hand may make, each put into one place of one function of a module's source."""

from __future__ import annotations

import ast
import copy
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import CodeType
from typing import Any

ROOT = Path(__file__).resolve().parents[1]

OTHER: dict[type[ast.AST], type[ast.AST]] = {
    ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.And: ast.Or, ast.Or: ast.And,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Add, ast.FloorDiv: ast.Mult, ast.Div: ast.Mult,
    ast.Mod: ast.Add, ast.BitOr: ast.BitAnd, ast.BitAnd: ast.BitOr, ast.Break: ast.Continue, ast.Continue: ast.Break,
}  # fmt: skip


@dataclass(frozen=True)
class Fault:
    """A fault in one function of a file: the code that has it, how the place reads, and the lines of its statement."""

    file: str
    function: str
    lines: range
    before: str
    after: str
    code: CodeType


def faults_of(file: str, source: str) -> Iterator[Fault]:
    """Yield each fault that can be put into the functions of a file; every one of them changes one place."""
    whole = ast.parse(source)
    for path in function_paths(whole):
        function = steps(whole, path)[-1]
        name = ".".join(one.name for one in steps(whole, path))
        kept = {id(node) for node in left_alone(function)}
        for place in [one for one in places(function, function) if id(one.node) not in kept]:
            for other in instead(place.node):
                before = place.reads()
                place.put(other)
                code, after = compiled(whole, file, path), place.reads()
                place.put(place.node)
                if code is not None:
                    yield Fault(file, name, place.lines, before, after, code)


def function_paths(tree: Any) -> Iterator[tuple[int, ...]]:
    """Yield the way to each function of a module and to each method of its classes, as places in their bodies."""
    for place, node in enumerate(tree.body):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield (place,)
        elif isinstance(node, ast.ClassDef):
            yield from ((place, *rest) for rest in function_paths(node))


def steps(tree: Any, path: tuple[int, ...]) -> list[Any]:
    found = []
    for place in path:
        tree = tree.body[place]
        found.append(tree)
    return found


def left_alone(function: ast.FunctionDef) -> Iterator[ast.AST]:
    """Yield what is no part of the function's doing: how it is called, its types, its docstrings."""
    for node in (function.args, *function.decorator_list, *filter(None, [function.returns])):
        yield from ast.walk(node)
    for node in ast.walk(function):
        if isinstance(node, ast.AnnAssign):
            yield from ast.walk(node.annotation)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield from (node, node.value)
        if isinstance(node, ast.JoinedStr):
            yield from (part for part in node.values if isinstance(part, ast.Constant))


@dataclass(frozen=True)
class Place:
    """A node, what holds it, under which name and where in a list, and the statement that it is part of."""

    node: ast.AST
    holder: ast.AST
    name: str
    index: int | None
    statement: ast.stmt

    def put(self, node: ast.AST) -> None:
        if self.index is None:
            setattr(self.holder, self.name, node)
        else:
            getattr(self.holder, self.name)[self.index] = node

    def reads(self) -> str:
        shown = self.node if isinstance(self.node, ast.stmt) else self.holder
        held = getattr(self.holder, self.name) if self.index is None else getattr(self.holder, self.name)[self.index]
        return ast.unparse(held if shown is self.node else self.holder).splitlines()[0]

    @property
    def lines(self) -> range:
        last = getattr(self.node, "lineno", getattr(self.holder, "lineno", self.statement.lineno))
        return range(self.statement.lineno, last + 1)


def places(tree: ast.AST, statement: ast.stmt) -> Iterator[Place]:
    """Yield each node within a tree."""
    for name, value in ast.iter_fields(tree):
        for index, node in enumerate(value) if isinstance(value, list) else [(None, value)]:
            if isinstance(node, ast.AST):
                within = node if isinstance(node, ast.stmt) else statement
                yield Place(node, tree, name, index, within)
                yield from places(node, within)


def instead(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what may stand in the place of a node by mistake."""
    if type(node) in OTHER:
        yield OTHER[type(node)]()
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node.operand
    elif isinstance(node, ast.If | ast.While | ast.IfExp) and not isinstance(node.test, ast.Compare | ast.UnaryOp):
        turned = copy.copy(node)
        turned.test = ast.UnaryOp(ast.Not(), node.test)
        yield turned
    elif isinstance(node, ast.Constant) and not isinstance(node.value, bytes):
        yield from instead_of_value(node.value)
    elif isinstance(node, ast.Return) and node.value is not None:
        if not (isinstance(node.value, ast.Constant) and node.value.value is None):
            yield ast.Return(ast.Constant(None))
    elif isinstance(node, ast.Raise) or (isinstance(node, ast.Expr) and isinstance(node.value, ast.Call)):
        yield ast.Pass()
    elif isinstance(node, ast.keyword) and node.arg and not is_nothing(node.value):
        yield ast.keyword(node.arg, ast.Constant(None))


def is_nothing(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and node.value is None


def instead_of_value(value: object) -> Iterator[ast.AST]:
    if isinstance(value, bool):
        yield ast.Constant(not value)
    elif isinstance(value, int):
        yield ast.Constant(value + 1)
    elif isinstance(value, str):
        yield ast.Constant(f"x{value}")


def compiled(tree: ast.Module, file: str, path: tuple[int, ...]) -> CodeType | None:
    """Return the code of the function at a path, None where Python does not take it."""
    try:
        ast.fix_missing_locations(tree)
        code = compile(tree, str(ROOT / file), "exec", dont_inherit=True)
    except (SyntaxError, ValueError, TypeError):
        return None
    for step in steps(tree, path):
        code = next(one for one in code.co_consts if isinstance(one, CodeType) and begins(one, step))
    return code


def begins(code: CodeType, node: Any) -> bool:
    first = min([node.lineno, *(one.lineno for one in node.decorator_list)])
    return code.co_name == node.name and code.co_firstlineno == first
