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


def test_the_machines_own_name_is_right_however_it_sounds(findings_of: FindingsOf) -> None:
    said = "well this here is the brakeline and it squeals so slide the brake pads out"
    assert findings_of(said, SPECS + "\nbrake line,,torque,14 N·m,,invented book p. 2", "misheard")
    machine = '[machine]\nmake = "Brakeline"'
    assert findings_of(said, SPECS + "\nbrake line,,torque,14 N·m,,invented book p. 2", "misheard", machine) == []


def test_a_word_that_everybody_knows_must_sound_near(findings_of: FindingsOf) -> None:
    specs = "fence rail bolts,fence bolts;fences,torque,14 N·m,,invented book p. 2"
    assert (
        findings_of(
            "now the arbor was in with the venison since last night and the fence bolts come out", specs, "misheard"
        )
        == []
    )
