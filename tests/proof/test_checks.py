"""The list of checks and the ids of findings."""

from conftest import FindingsOf

from witnessmark.proof.checks import CHECKS, named
from witnessmark.proof.model import Finding


def test_every_check_says_what_it_finds_and_by_what_source() -> None:
    import sys

    for check in CHECKS:
        module = sys.modules[check.__module__]
        text = module.__doc__ or ""
        assert "*said*" in text and "*found*" in text and "Source: " in text and module.NAME, check.__module__


def test_ids_are_unique_and_outlast_a_shift_of_all_times() -> None:
    def found(at: float) -> list[Finding]:
        return [Finding("value", "hold", at + i, at + i + 1, "ten", "wrong", item="bolt") for i in range(3)]

    ids = [each.id for each in named(found(0.0))]
    assert len(set(ids)) == 3 and ids == [each.id for each in named(found(60.0))]


def test_a_clean_recording_has_no_hold_and_no_query(findings_of: FindingsOf) -> None:
    said = """
    thirteen millimeter socket on the bracket bolts
    put them back in and tighten the bracket bolts to twenty two newton meters
    which is sixteen foot pounds
    """
    found = findings_of(said, "bracket bolts,,torque,22 N·m,13 mm,invented book p. 1")
    assert [each for each in found if each.severity != "note"] == []
