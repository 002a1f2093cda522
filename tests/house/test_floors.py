"""Folders are floors: imports go down only, and each package from outside has its one place.

import-linter holds the contracts of pyproject.toml against the import graph. The second half reads
the imports themselves, those inside functions as well, so that a package nobody has placed yet is
seen too.
"""

import ast
import re
import sys

from house import ROOT, listed, modules
from importlinter.cli import lint_imports

FLOORS = (("base",), ("trade",), ("plan",), ("draw",), ("live",), ("teach", "record"), ("__main__",))
PLACES = {
    "lazy_loader": r"furnlib\.",
    "numpy": r"(base|trade)\.",
    "scipy": r"trade\.",
    "pydantic": r"plan\.",
    "ruamel": r"plan\.",
    "ezdxf": r"draw\.cutter_outlet",
    "matplotlib": r"draw\.file_outlet",
    "trimesh": r"draw\.solid",
    "IPython": r"live\.",
    "anywidget": r"live\.",
    "ipywidgets": r"live\.",
    "traitlets": r"live\.",
    "sympy": r"teach\.",
    "jinja2": r"record\.",
    "markupsafe": r"record\.",
}
SHARED = {"furnlib.trade.leg.lean", "furnlib.trade.wood.species", "furnlib.trade.case.ratios"}
PRIVATE = {
    ("furnlib.trade.drawer.closing", "furnlib.trade.drawer._closing"),
    ("furnlib.trade.drawer.graduation", "furnlib.trade.drawer.sums"),
    ("furnlib.trade.drawer.droop", "furnlib.trade.drawer.play"),
    ("furnlib.trade.drawer.racking", "furnlib.trade.drawer.play"),
    ("furnlib.trade.drawer.riding", "furnlib.trade.drawer.play"),
    ("furnlib.trade.case.slots", "furnlib.trade.case._season"),
    ("furnlib.trade.case.panels", "furnlib.trade.case._season"),
    ("furnlib.trade.leg.lean", "furnlib.trade.leg._naming"),
    ("furnlib.trade.leg.turning", "furnlib.trade.leg.elements"),
    ("furnlib.trade.leg.turning", "furnlib.trade.leg._outline"),
    ("furnlib.trade.leg.elements", "furnlib.trade.leg._outline"),
}


def imports(text):
    """Each import that runs: its line, what it names, and whether it stands inside a function."""
    found = []

    def walk(node, inside):
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            return
        if isinstance(node, ast.Import):
            found.extend((node.lineno, alias.name, inside) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            source = "." * node.level + (node.module or "")
            found.append((node.lineno, source, inside))
            found.extend((node.lineno, f"{source}.{alias.name}", inside) for alias in node.names)
        for inner in ast.iter_child_nodes(node):
            walk(inner, inside or isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef))

    walk(ast.parse(text), False)
    return found


MODULES = dict(modules())
IMPORTS = [(name, *found) for name, path in MODULES.items() for found in imports(path.read_text("utf-8"))]


def part_of(module):
    """The folder of the house that a module stands in, or nothing for what is no part of it."""
    house, _, rest = module.partition(".")
    return rest.split(".")[0] if house == "furnlib" else ""


def floor_of(module):
    return next((level for level, parts in enumerate(FLOORS) if part_of(module) in parts), len(FLOORS))


def at(module, line, what):
    return f"{module} line {line}: {what}"


def test_contracts_are_kept(tmp_path, capsys):
    broken = lint_imports(config_filename=str(ROOT / "pyproject.toml"), cache_dir=str(tmp_path))
    assert not broken, capsys.readouterr().out


def test_every_module_stands_on_a_floor():
    homeless = [name for name in MODULES if name != "furnlib" and floor_of(name) == len(FLOORS)]
    assert not homeless, listed(homeless)


def test_imports_go_down_only():
    upward = [
        at(module, line, what)
        for module, line, what, _ in IMPORTS
        if part_of(what) and part_of(module) != part_of(what) and floor_of(what) >= floor_of(module)
    ]
    assert not upward, listed(upward)


def test_nobody_imports_by_dots_or_through_the_one_import_line():
    odd = [at(m, line, what) for m, line, what, _ in IMPORTS if what.startswith(".") or what == "furnlib"]
    assert not odd, listed(odd)


def test_each_package_from_outside_has_its_one_place():
    own = sys.stdlib_module_names | {"furnlib"}
    strange = [
        at(module, line, what)
        for module, line, what, _ in IMPORTS
        if (package := what.split(".")[0]) not in own
        and not re.match(PLACES.get(package, "(?!)"), module.removeprefix("furnlib.") + ".")
    ]
    assert not strange, listed(strange)


def test_heavy_packages_load_inside_functions():
    early = [at(m, line, what) for m, line, what, inside in IMPORTS if what.split(".")[0] == "scipy" and not inside]
    assert not early, listed(early)


def test_modules_of_the_trade_stand_alone():
    tied = [
        at(module, line, what)
        for module, line, what, _ in IMPORTS
        if module.startswith("furnlib.trade.") and what.startswith("furnlib.trade") and what in MODULES
        if what not in SHARED and (module, what) not in PRIVATE
    ]
    assert not tied, listed(tied)


def test_imports_are_read_wherever_they_run():
    text = "import a\nif TYPE_CHECKING:\n    import b\ndef f():\n    from c.d import e\n"
    assert imports(text) == [(1, "a", False), (5, "c.d", True), (5, "c.d.e", True)]
