"""Misheard words as findings; what is heard is tested with the language."""

from conftest import FindingsOf

SPECS = "brake pads,,minimum thickness,2 mm,,invented book p. 1"


def test_a_misheard_word_is_offered(findings_of: FindingsOf) -> None:
    (found,) = findings_of("slide the new break pads into the bracket", SPECS, "misheard")
    assert found.severity == "query" and "brake pads" in (found.expected or "")
    assert found.fix is not None and found.fix.caption == found.expected


def test_one_that_the_project_confirms_is_a_note(findings_of: FindingsOf) -> None:
    found = findings_of(
        "slide the new break pads into the bracket", SPECS, "misheard", '[heard]\n"break pads" = "brake pads"'
    )
    assert [each.severity for each in found] == ["note"]


def test_right_words(findings_of: FindingsOf) -> None:
    assert findings_of("slide the new brake pads into the bracket and take a break", SPECS, "misheard") == []


def test_a_dropped_g_is_no_question(findings_of: FindingsOf) -> None:
    specs = "wheel bearing,,clearance,0.1 mm,,invented book p. 1"
    assert findings_of("grease the wheel bearin before it goes in", specs, "misheard") == []
    (found,) = findings_of("grease the wheel baring before it goes in", specs, "misheard")
    assert "bearing" in (found.expected or "")
