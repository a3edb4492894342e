"""Nothing without an origin: every source that is named exists, every one that is listed is named."""

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from logic.data.sources import MARKS, all_sources, source
from tests.contract.headless import RIGS, ROOT

LOGIC = ROOT / "logic"
KNOWN = {one.id for one in all_sources()}
# An id in a docstring or a comment stands in backticks behind the word, or alone behind a unit in brackets.
_IDS = r"((?:`[a-z0-9.-]+`(?:,\s+|\s+and\s+)?)+)"
CITED = re.compile(rf"[Ss]ources?:?\s+{_IDS}|\[[^\]]{{1,12}}\]\s+{_IDS}")
ID = re.compile(r"`([a-z0-9.-]+)`")


def in_tables() -> Iterator[tuple[str, str]]:
    """(where, id) of each row of each data file."""
    for path in sorted((LOGIC / "data" / "tables").glob("*.toml")):
        if not path.stem.startswith("sources_"):
            yield from ((path.name, found) for found in sources_within(tomllib.loads(path.read_text())))


def sources_within(value: object) -> Iterator[str]:
    if isinstance(value, dict):
        for name, item in value.items():
            if name == "source" and isinstance(item, str):
                yield item
            elif name == "sources" and isinstance(item, list):
                yield from item
            else:
                yield from sources_within(item)
    elif isinstance(value, list):
        for item in value:
            yield from sources_within(item)


def in_code() -> Iterator[tuple[str, str]]:
    """(where, id) of each `source=` and `sources=` of the code, constants that hold such ids included."""
    for path in sorted(LOGIC.rglob("*.py")):
        where = str(path.relative_to(ROOT))
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.keyword) and node.arg in ("source", "sources"):
                yield from ((where, text) for text in texts_within(node.value))
            if isinstance(node, ast.Assign):
                names = [target.id for target in node.targets if isinstance(target, ast.Name)]
                if any(name.endswith(("SOURCE", "SOURCES")) for name in names):
                    yield from ((where, text) for text in values_within(node.value))


def texts_within(node: ast.expr) -> Iterator[str]:
    """Texts that are passed on as they are; what is looked up in a table is found where the table stands."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value:
        yield node.value
    elif isinstance(node, ast.Tuple | ast.List | ast.Set):
        for item in node.elts:
            yield from texts_within(item)
    elif isinstance(node, ast.Starred):
        yield from texts_within(node.value)
    elif isinstance(node, ast.IfExp):
        yield from texts_within(node.body)
        yield from texts_within(node.orelse)
    elif isinstance(node, ast.BinOp):
        yield from texts_within(node.left)
        yield from texts_within(node.right)


def values_within(node: ast.expr) -> Iterator[str]:
    """The same, the values of a table too."""
    if isinstance(node, ast.Dict):
        for value in node.values:
            yield from texts_within(value)
    else:
        yield from texts_within(node)


def in_words() -> Iterator[tuple[str, str]]:
    """(where, id) of each that a docstring or a comment cites."""
    for path in sorted(LOGIC.rglob("*.py")):
        for match in CITED.finditer(path.read_text()):
            for found in ID.findall(match[0]):
                yield str(path.relative_to(ROOT)), found


@pytest.mark.parametrize("named", [in_tables, in_code, in_words], ids=lambda function: function.__name__)
def test_every_source_that_is_named_exists(named):
    missing = sorted({(found, where) for where, found in named() if found not in KNOWN})
    assert missing == []


def test_every_source_that_is_listed_is_named_somewhere():
    everything = "\n".join(
        path.read_text()
        for path in [*LOGIC.rglob("*.py"), *LOGIC.rglob("*.toml")]
        if not path.stem.startswith("sources_")
    )
    named = set(re.findall(r"[\"`]([a-z0-9][a-z0-9.-]+)[\"`]", everything))
    assert sorted(KNOWN - named) == []


@pytest.mark.parametrize("rig", sorted(RIGS.glob("*.toml")), ids=lambda path: path.stem)
def test_whatever_an_assessment_names_exists(rig: Path):
    from logic.assessment.assess import assess
    from logic.data.profile_file import load_profile

    assessment = assess(load_profile(rig).profile)
    for figure in assessment.figures:
        assert figure.sources, figure.id
        assert set(figure.sources) <= KNOWN, figure.id
    for finding in assessment.findings:
        assert finding.source in KNOWN, finding.id


def test_ids_are_unique_and_marks_are_told_in_words():
    ids = [one.id for one in all_sources()]
    assert len(ids) == len(set(ids))
    for one in all_sources():
        assert one.mark in MARKS
        assert one.title
        assert one.section
        assert one.mark_in_words.partition(":")[0] == one.mark.lower()
        assert one.text.startswith(one.title)


def test_what_is_practice_or_memory_never_looks_like_a_citation():
    for one in all_sources():
        if one.id.startswith("practice-"):
            assert one.mark in ("PRACTICE", "FOUND"), one.id
        if one.id.startswith("memory-"):
            assert one.mark == "MEMORY", one.id


def test_one_source_is_had_by_its_id():
    assert source("mcadams-1954").mark == "MEMORY"
    with pytest.raises(KeyError):
        source("nobody")
