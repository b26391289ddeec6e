"""A name is suggested where it is near, and none where nothing is."""

import pytest

from witnessmark.nearest import nearest, not_known

KNOWN = ("title", "captions", "video", "facts.json")


@pytest.mark.parametrize(
    ("name", "near"), [("caption", "captions"), ("titel", "title"), ("facts", "facts.json"), ("vid", "video")]
)
def test_near(name: str, near: str) -> None:
    assert nearest(name, KNOWN) == near
    assert not_known(f"key {name!r}", name, KNOWN) == f"key {name!r} is not known, the nearest is {near!r}"


@pytest.mark.parametrize("name", ["xyz", "colour", "odometer", ""])
def test_nothing_is_near(name: str) -> None:
    assert nearest(name, KNOWN) is None
    assert not_known("it", name, KNOWN) == "it is not known"


def test_the_least_likeness_is_the_callers() -> None:
    assert nearest("value-9fe0", ["value-12ab"]) == "value-12ab" and nearest("value-9fe0", ["value-12ab"], 80) is None
