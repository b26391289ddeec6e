"""The packaged vocabulary keeps its own rules: columns, spoken forms, uniqueness, and how much of the trade it covers.

A name is what the lists print; `also_called` holds every other way it is said; `short` holds bare heads that mean the
thing only where the context is right. A row whose own name stands in `short` is a head word in itself.
"""

import re
from collections import Counter

import pytest

from witnessmark.data import read_rows
from witnessmark.language.vocabulary import key_of, split_names

Row = dict[str, str]

COLUMNS = {
    "tools": ["name", "also_called", "short", "sizing", "group", "source"],
    "fasteners": ["name", "also_called", "short", "thread_role", "one_time", "critical", "group", "source"],
    "parts": ["name", "also_called", "short", "takes_torque", "group", "source"],
    "supplies": ["name", "also_called", "short", "measured", "group", "source"],
    "actions": ["verb", "also_said", "action", "opposite", "source"],
    "spellings": ["us", "uk", "source"],
}
AT_LEAST = {"tools": 190, "fasteners": 170, "parts": 480, "supplies": 100, "actions": 220, "spellings": 60}
THINGS = ("tools", "fasteners", "parts", "supplies")
YES_NO = {"yes", "no"}
ALLOWED = {
    ("tools", "sizing"): {"head", "drive", "other", "none"},
    ("fasteners", "thread_role"): {"threaded", "clip", "pin", "washer", "clamp", "rivet", "other"},
    ("fasteners", "one_time"): {"yes", "often", "no"},
    ("fasteners", "critical"): YES_NO,
    ("parts", "takes_torque"): YES_NO,
    ("supplies", "measured"): YES_NO,
}
ACTIONS = set(
    """tighten loosen remove fit drain fill clean measure inspect lubricate lift lower support connect disconnect adjust
    cut apply move turn test mark wait dispose protect open close hold start stop prepare""".split()  # noqa: SIM905
)
BARE_HEADS = {"key", "bar", "pan", "cover", "plug", "nut", "bolt", "screw", "clip", "clamp", "pin", "head", "ring"}


def rows(file: str) -> list[Row]:
    return list(read_rows(f"vocabulary/{file}.csv"))


def first_column(file: str) -> str:
    return COLUMNS[file][0]


def forms(file: str, row: Row) -> list[str]:
    """Every full spoken form of a row: its name, then the other names."""
    return [row[first_column(file)], *split_names(row.get("also_called") or row.get("also_said") or "")]


@pytest.mark.parametrize("file", COLUMNS)
def test_columns_are_as_named_and_every_row_has_a_source(file: str) -> None:
    for row in rows(file):
        assert list(row) == COLUMNS[file], row
        assert row["source"], row


@pytest.mark.parametrize("file", COLUMNS)
def test_rows_are_sorted_and_enough(file: str) -> None:
    firsts = [row[first_column(file)] for row in rows(file)]
    assert firsts == sorted(firsts)
    assert len(firsts) >= AT_LEAST[file]


@pytest.mark.parametrize("file", COLUMNS)
def test_forms_are_written_as_they_are_heard(file: str) -> None:
    """Lower case, single spaces, no hyphen or apostrophe; `dot 5.1` keeps its point."""
    for row in rows(file):
        heard = [*forms(file, row), *split_names(row.get("short", ""))]
        heard += [row["uk"]] if "uk" in row else []
        for form in heard:
            assert re.fullmatch(r"[a-z0-9.]+(?: [a-z0-9.]+)*", form), (form, row)


@pytest.mark.parametrize("file", [*THINGS, "actions"])
def test_no_form_belongs_to_two_rows(file: str) -> None:
    counted = Counter(form for row in rows(file) for form in forms(file, row))
    assert [form for form, times in counted.items() if times > 1] == []


@pytest.mark.parametrize("file", THINGS)
def test_no_form_is_a_plural_or_spelling_of_another_row(file: str) -> None:
    owner: dict[tuple[str, ...], str] = {}
    for row in rows(file):
        for form in forms(file, row):
            assert owner.setdefault(key_of(form), row["name"]) == row["name"], form


@pytest.mark.parametrize("file", THINGS)
def test_no_form_is_heard_as_a_number_alone(file: str) -> None:
    for row in rows(file):
        for form in forms(file, row):
            assert not all(token.isdecimal() for token in key_of(form)), form


@pytest.mark.parametrize("file", THINGS)
def test_a_short_is_no_full_form_unless_that_row_is_itself_a_head_word(file: str) -> None:
    full = {form for row in rows(file) for form in forms(file, row) if form not in split_names(row["short"])}
    for row in rows(file):
        assert not full & set(split_names(row["short"])), row


@pytest.mark.parametrize("file", THINGS)
def test_everyday_head_words_are_only_ever_short(file: str) -> None:
    for row in rows(file):
        bare = BARE_HEADS & set(forms(file, row))
        assert bare <= set(split_names(row["short"])), row


@pytest.mark.parametrize(("file", "column"), ALLOWED)
def test_traits_take_the_listed_values(file: str, column: str) -> None:
    assert {row[column] for row in rows(file)} <= ALLOWED[file, column]


def test_actions_and_their_opposites_are_the_listed_classes() -> None:
    assert {row["action"] for row in rows("actions")} <= ACTIONS
    assert {row["opposite"] for row in rows("actions")} <= ACTIONS | {"none"}
    assert all(row["action"] != row["opposite"] for row in rows("actions"))


def test_spelling_pairs_differ_and_stand_once() -> None:
    pairs = [(row["us"], row["uk"]) for row in rows("spellings")]
    assert len(pairs) == len(set(pairs))
    assert all(us != uk for us, uk in pairs)


SAID_AND_FOUND = [
    # said, file, found
    ("lug nuts", "fasteners", "wheel nut"),
    ("nyloc", "fasteners", "nylon insert lock nut"),
    ("cotter pin", "fasteners", "split pin"),
    ("jubilee clip", "fasteners", "hose clamp"),
    ("caliper carrier bolts", "fasteners", "caliper bracket bolt"),
    ("chain ring bolts", "fasteners", "chainring bolt"),
    ("sump plug", "fasteners", "drain plug"),
    ("allen key", "tools", "hex key"),
    ("axle stands", "tools", "jack stand"),
    ("vise grips", "tools", "locking pliers"),
    ("rattle gun", "tools", "impact wrench"),
    ("pedal spanner", "tools", "pedal wrench"),
    ("rear mech", "parts", "rear derailleur"),
    ("anti roll bar", "parts", "sway bar"),
    ("rad", "parts", "radiator"),
    ("cambelt", "parts", "timing belt"),
    ("carburettor", "parts", "carburetor"),
    ("door boot", "parts", "door seal"),
    ("loctite", "supplies", "thread lock"),
    ("petrol", "supplies", "gasoline"),
    ("cable ties", "supplies", "zip tie"),
]


@pytest.mark.parametrize(("said", "file", "found"), SAID_AND_FOUND)
def test_what_people_say_leads_to_the_name(said: str, file: str, found: str) -> None:
    names = [row["name"] for row in rows(file) if key_of(said) in {key_of(form) for form in forms(file, row)}]
    assert names == [found]


@pytest.mark.parametrize(
    ("fastener", "trait", "value"),
    [
        ("crush washer", "one_time", "yes"),
        ("split pin", "one_time", "yes"),
        ("stretch bolt", "one_time", "yes"),
        ("nylon insert lock nut", "one_time", "often"),
        ("hex nut", "one_time", "no"),
        ("wheel nut", "critical", "yes"),
        ("seat belt bolt", "critical", "yes"),
        ("propeller nut", "critical", "yes"),
        ("blade bolt", "critical", "yes"),
        ("stem faceplate bolt", "critical", "yes"),
        ("control panel screw", "critical", "no"),
    ],
)
def test_what_a_fastener_asks_of_the_one_who_fits_it(fastener: str, trait: str, value: str) -> None:
    (row,) = [row for row in rows("fasteners") if row["name"] == fastener]
    assert row[trait] == value
