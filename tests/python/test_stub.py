"""The committed stub names what the compiled module has; the long run writes it anew."""

import ast
import inspect
from pathlib import Path

from hoopline import _core

STUB = Path(__file__).parents[2] / "python" / "hoopline" / "_core.pyi"


def arguments(node):
    names = [one.arg for one in (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs)]
    return [name for name in names if name not in ("self", "cls", "_cls")]


def found(owner, name):
    parameters = inspect.signature(getattr(owner, name)).parameters
    return [one for one in parameters if one not in ("self", "cls", "$self")]


def test_the_committed_stub_has_the_names_and_arguments_of_the_module():
    tree = ast.parse(STUB.read_text(encoding="utf-8"))
    functions = {node.name: node for node in tree.body if isinstance(node, ast.FunctionDef)}
    classes = {node.name: node for node in tree.body if isinstance(node, ast.ClassDef)}
    public = {name for name in dir(_core) if not name.startswith("_")}
    assert {*functions, *classes, "version"} == public
    for name, node in functions.items():
        assert arguments(node) == found(_core, name), name
    for word, known in classes.items():
        owner = getattr(_core, word)
        methods = {one.name: one for one in known.body if isinstance(one, ast.FunctionDef)}
        own = {name for name in vars(owner) if not name.startswith("_")}
        assert {name for name in methods if not name.startswith("_")} == own, word
        for name in filter(lambda name: callable(getattr(owner, name)), own):
            assert arguments(methods[name]) == found(owner, name), f"{word}.{name}"
