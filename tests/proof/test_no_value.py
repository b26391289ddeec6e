"""Tightened, with a torque in the table, and none said."""

from conftest import FindingsOf

SPECS = """
caliper bracket bolts,bracket bolts,torque,108 N·m,17 mm,invented book p. 1
splash cover bolts,cover bolts,torque,9 N·m,10 mm,invented book p. 2
"""


def test_a_critical_fastener_is_a_query(findings_of: FindingsOf) -> None:
    (found,) = findings_of(
        "put the caliper over the disc\nnow tighten the caliper bracket bolts\nand wipe it all down", SPECS, "no-value"
    )
    assert (found.severity, found.item) == ("query", "caliper bracket bolts")
    assert "108 N·m" in (found.expected or "")


def test_any_other_is_a_note(findings_of: FindingsOf) -> None:
    (found,) = findings_of(
        "slide the cover up\nthen tighten the splash cover bolts\nand that is done", SPECS, "no-value"
    )
    assert found.severity == "note"


def test_once_an_item(findings_of: FindingsOf) -> None:
    said = "tighten the splash cover bolts\nnow put the wheel on\ntighten the splash cover bolts again"
    assert len(findings_of(said, SPECS, "no-value")) == 1


def test_said_anywhere_is_said(findings_of: FindingsOf) -> None:
    said = (
        "tighten the caliper bracket bolts\nand check the hose\n"
        "the caliper bracket bolts get a hundred and eight newton meters"
    )
    assert findings_of(said, SPECS, "no-value") == []


def test_loosening_needs_no_value(findings_of: FindingsOf) -> None:
    assert findings_of("loosen the caliper bracket bolts and take them out", SPECS, "no-value") == []


def test_no_row_no_finding(findings_of: FindingsOf) -> None:
    assert (
        findings_of(
            "now tighten the caliper bracket bolts", "oil,engine oil,grade,5W-30,,invented book p. 3", "no-value"
        )
        == []
    )
