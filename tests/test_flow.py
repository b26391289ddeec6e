"""Data flows one way: a stage knows the stages before it and none after it. And no module or function outgrows a reader."""

import ast
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[1] / "src" / "witnessmark"
MODULES = {
    ".".join(path.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__"): path
    for path in SOURCE.rglob("*.py")
}
# What stands earlier may not know what stands later.
ORDER = (
    "__init__", "errors", "nearest", "size_limit", "data", "quantity", "units", "house_style", "project", "transcript", "specs", "language", "reading",
    "procedure", "proof", "examination", "publication", "progress", "proving", "new_project", "settling", "cli", "reference", "__main__",
)  # fmt: skip
# Words and numbers are read without knowing the project; only what the creator's own words put right needs it.
LANGUAGE_WITH_PROJECT = "language.heard"
LONGEST_MODULE, LONGEST_FUNCTION = 400, 60


def _tree(module: str) -> ast.Module:
    return ast.parse(MODULES[module].read_text(encoding="utf-8"))


def _part(module: str) -> str:
    return module.split(".")[0]


def _imported(module: str) -> set[str]:
    """Modules of the package that a module imports, wherever in it the import stands."""
    found: set[str] = set()
    for node in ast.walk(_tree(module)):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module} imports from '.': write the whole name"
            whole = [f"{node.module}.{alias.name}" for alias in node.names]
            names = [name if name.removeprefix("witnessmark.") in MODULES else node.module or "" for name in whole]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        own = {name.removeprefix("witnessmark.") for name in names if name.startswith("witnessmark.")}
        found |= {name for name in own if name in MODULES}
        if "witnessmark" in names:
            found.add("__init__")
    return found - {module}


@pytest.mark.parametrize("module", sorted(MODULES))
def test_a_module_knows_only_what_stands_before_it(module: str) -> None:
    place = ORDER.index(_part(module))
    later = sorted(name for name in _imported(module) if ORDER.index(_part(name)) > place)
    assert not later, f"{module} imports {', '.join(later)}"


def test_only_the_creators_own_words_bring_the_project_into_language() -> None:
    bound = [
        module for module in sorted(MODULES)
        if _part(module) == "language" and {_part(name) for name in _imported(module)} & {"project", "specs"}
    ]  # fmt: skip
    assert bound == [LANGUAGE_WITH_PROJECT]


def test_captions_and_tables_are_read_apart() -> None:
    for module in MODULES:
        others = {_part(name) for name in _imported(module)}
        assert not (_part(module) == "specs" and "transcript" in others)
        assert not (_part(module) == "transcript" and "specs" in others)


def test_the_commands_hold_no_stage_of_their_own() -> None:
    stages = {"transcript", "specs", "language", "reading", "procedure", "proof"}
    assert not {_part(name) for name in _imported("cli")} & stages


def test_no_module_needs_itself() -> None:
    graph = {module: _imported(module) for module in MODULES}
    assert set(TopologicalSorter(graph).static_order()) >= set(MODULES)


@pytest.mark.parametrize("module", sorted(MODULES))
def test_no_module_or_function_outgrows_a_reader(module: str) -> None:
    lines = MODULES[module].read_text(encoding="utf-8").count("\n")
    assert lines <= LONGEST_MODULE, f"{module} has {lines} lines"
    for node in ast.walk(_tree(module)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            length = (node.end_lineno or node.lineno) - node.lineno + 1
            assert length <= LONGEST_FUNCTION, f"{module}.{node.name} has {length} lines"
