"""A person's edits and a new version of the same text: nothing that was typed is lost. All texts are invented."""

import tempfile
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.publication.merge import merged
from witnessmark.publication.write import write_files

LAST = "# Belt\n\nUndo the cover.\nLift the belt off.\n\nFit the belt.\nFit the cover.\n"
LINES = st.lists(st.sampled_from(["", "a", "b", "c", "- 34 N·m", "# d"]), max_size=12)


@st.composite
def versions(draw: st.DrawFn) -> tuple[str, str, str]:
    """What was last written, what a person made of it, and a new version: each by inserting, replacing and deleting lines."""
    last = draw(LINES)
    edited, new = (_changed(draw, last, mark) for mark in ("mine", "new"))
    return tuple("".join(f"{line}\n" for line in lines) for lines in (last, edited, new))  # type: ignore[return-value]


def _changed(draw: st.DrawFn, lines: list[str], mark: str) -> list[str]:
    lines = list(lines)
    for number in range(draw(st.integers(0, 4))):
        at, length = draw(st.integers(0, len(lines))), draw(st.integers(0, 2))
        typed = draw(st.lists(st.sampled_from([f"{mark} {number}", "", "a", "same words"]), max_size=2))
        lines[at : at + length] = typed
    return lines


def inserted(last: str, edited: str) -> Counter[str]:
    return Counter(edited.split("\n")) - Counter(last.split("\n"))


@given(versions())
def test_a_merge_keeps_what_was_typed_and_what_is_new(texts: tuple[str, str, str]) -> None:
    last, edited, new = texts
    text = merged(last, edited, new)
    if text is not None:
        lines = Counter(text.split("\n"))
        assert not inserted(last, edited) - lines
        assert not inserted(last, new) - lines
        assert merged(new, text, new) == text


@given(versions())
def test_a_merge_with_one_side_unchanged_is_the_other(texts: tuple[str, str, str]) -> None:
    last, edited, new = texts
    assert merged(last, edited, last) == edited
    assert merged(last, last, new) == new
    assert merged(last, new, new) == new


@given(versions(), st.booleans(), st.booleans())
def test_line_ends_and_byte_order_marks_are_no_edits(texts: tuple[str, str, str], ends: bool, mark: bool) -> None:
    last, edited, new = texts
    theirs = "\ufeff" * mark + (edited.replace("\n", "\r\n") if ends else edited)
    text = merged(last, theirs, new)
    plain = merged(last, edited, new)
    assert (text is None) == (plain is None)
    if text is not None and plain is not None:
        assert text.removeprefix("\ufeff").replace("\r\n", "\n") == plain
        assert text.startswith("\ufeff") == mark
        assert not ends or "\n" not in edited or text.count("\n") == text.count("\r\n")


@settings(max_examples=40, deadline=None)
@given(versions(), st.data())
def test_nothing_typed_is_lost_in_a_folder(texts: tuple[str, str, str], data: st.DataObject) -> None:
    last, edited, new = texts
    with tempfile.TemporaryDirectory() as name:
        out = Path(name)
        write_files(out, {"a.md": last})
        (out / "a.md").write_bytes(edited.encode())
        (written,) = write_files(out, {"a.md": new})
        now = (out / "a.md").read_bytes().decode()
        assert now == edited if written.kept else not inserted(last, edited) - Counter(now.split("\n"))
        assert not written.kept or (out / "a.md.new").read_bytes().decode() == new
        before = {path: path.read_bytes() for path in out.rglob("*") if path.is_file()}
        assert write_files(out, {"a.md": new}) == (written,)
        assert {path: path.read_bytes() for path in out.rglob("*") if path.is_file()} == before


def test_edits_apart_from_what_is_new_are_merged(tmp_path: Path) -> None:
    write_files(tmp_path, {"a.md": LAST})
    (tmp_path / "a.md").write_bytes(LAST.replace("off.", "off, gently.").encode())
    (written,) = write_files(tmp_path, {"a.md": LAST.replace("Fit the belt.", "Fit the new belt.")})
    assert (written.kept, written.merged) == (None, True)
    text = (tmp_path / "a.md").read_text()
    assert text == LAST.replace("off.", "off, gently.").replace("Fit the belt.", "Fit the new belt.")
    write_files(tmp_path, {"a.md": LAST + "\nDone.\n"})
    assert (tmp_path / "a.md").read_text() == LAST.replace("off.", "off, gently.") + "\nDone.\n"


def test_edits_of_what_is_new_stay_with_the_new_file_beside(tmp_path: Path) -> None:
    write_files(tmp_path, {"a.md": LAST})
    mine = LAST.replace("Lift", "Pull")
    (tmp_path / "a.md").write_text(mine)
    (written,) = write_files(tmp_path, {"a.md": LAST.replace("Lift", "Ease")})
    assert (written.kept, written.merged) == ("a.md", False)
    assert (tmp_path / "a.md").read_text() == mine


def test_a_new_file_taken_away_has_been_seen_to(tmp_path: Path) -> None:
    write_files(tmp_path, {"a.md": LAST})
    mine = LAST.replace("Lift", "Pull")
    (tmp_path / "a.md").write_text(mine)
    new = LAST.replace("Lift", "Ease")
    write_files(tmp_path, {"a.md": new})
    (tmp_path / "a.md.new").unlink()
    for _ in range(2):
        (written,) = write_files(tmp_path, {"a.md": new + "\nDone.\n"})
        assert written.merged and (tmp_path / "a.md").read_text() == mine + "\nDone.\n"


def test_an_edited_new_file_is_not_written_over(tmp_path: Path) -> None:
    write_files(tmp_path, {"a.md": "one\n"})
    (tmp_path / "a.md").write_text("mine\n")
    write_files(tmp_path, {"a.md": "two\n"})
    (tmp_path / "a.md.new").write_text("mine too\n")
    (written,) = write_files(tmp_path, {"a.md": "three\n"})
    assert (tmp_path / "a.md.new").read_text() == "mine too\n"
    assert written.path.name == "a.md.new.new" and written.path.read_text() == "three\n"


@pytest.mark.parametrize(("name", "mine"), [("facts.json", b"{}\n[]\n"), ("a.md", b"caf\xe9\n")])
def test_what_is_no_text_to_merge_is_kept(tmp_path: Path, name: str, mine: bytes) -> None:
    write_files(tmp_path, {name: "{}\n"})
    (tmp_path / name).write_bytes(mine)
    (written,) = write_files(tmp_path, {name: "3\n\n{}\n"})
    assert written.kept == name and (tmp_path / name).read_bytes() == mine


def test_only_the_texts_last_written_are_kept(tmp_path: Path) -> None:
    for number in range(5):
        write_files(tmp_path, {"a.md": f"{number}\n", "b.md": "b\n", "c.png": b"c"})
    kept = [path.read_text() for path in (tmp_path / ".witnessmark").iterdir() if len(path.name) == 64]
    assert sorted(kept) == ["4\n", "b\n"]
