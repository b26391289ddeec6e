import json

import pytest

from witnessmark.errors import InputError
from witnessmark.publication.moves import KEPT
from witnessmark.publication.write import MANIFEST, write_files


def test_files_and_a_manifest_are_written(tmp_path):
    written = write_files(tmp_path / "out", {"a.md": "one\n", "b.md": "two\n"})
    assert [each.path.name for each in written] == ["a.md", "b.md"]
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == sorted([MANIFEST, KEPT, "a.md", "b.md"])


def test_a_file_nobody_touched_is_written_again(tmp_path):
    write_files(tmp_path, {"a.md": "one\n"})
    write_files(tmp_path, {"a.md": "two\n"})
    assert (tmp_path / "a.md").read_text() == "two\n"
    assert not (tmp_path / "a.md.new").exists()


def test_an_edited_file_is_kept_and_the_new_one_put_beside_it(tmp_path):
    write_files(tmp_path, {"a.md": "one\n"})
    (tmp_path / "a.md").write_text("my own words\n")
    (written,) = write_files(tmp_path, {"a.md": "two\n"})
    assert (tmp_path / "a.md").read_text() == "my own words\n"
    assert (tmp_path / "a.md.new").read_text() == "two\n"
    assert (written.path.name, written.kept) == ("a.md.new", "a.md")


def test_an_edit_survives_any_number_of_builds(tmp_path):
    write_files(tmp_path, {"a.md": "one\n"})
    (tmp_path / "a.md").write_text("my own words\n")
    for text in ("two\n", "three\n"):
        write_files(tmp_path, {"a.md": text})
    assert (tmp_path / "a.md").read_text() == "my own words\n"
    assert (tmp_path / "a.md.new").read_text() == "three\n"


def test_a_file_that_was_there_before_is_kept(tmp_path):
    (tmp_path / "a.md").write_text("somebody's\n")
    write_files(tmp_path, {"a.md": "one\n"})
    assert (tmp_path / "a.md").read_text() == "somebody's\n"


def test_the_new_file_beside_goes_once_the_file_itself_is_given_up(tmp_path):
    write_files(tmp_path, {"a.md": "one\n"})
    (tmp_path / "a.md").write_text("mine\n")
    write_files(tmp_path, {"a.md": "two\n"})
    (tmp_path / "a.md").unlink()
    write_files(tmp_path, {"a.md": "three\n"})
    assert (tmp_path / "a.md").read_text() == "three\n" and not (tmp_path / "a.md.new").exists()


def test_a_manifest_that_cannot_be_read_vouches_for_nothing(tmp_path):
    write_files(tmp_path, {"a.md": "one\n"})
    (tmp_path / MANIFEST).write_text('{"files": 3')
    write_files(tmp_path, {"a.md": "two\n"})
    assert (tmp_path / "a.md").read_text() == "one\n"
    assert json.loads((tmp_path / MANIFEST).read_text())["version"] == 1


def test_nothing_is_written_where_one_file_cannot_be(tmp_path):
    write_files(tmp_path, {"a.md": "one\n"})
    (tmp_path / "b.md").mkdir()
    with pytest.raises(InputError, match="a folder stands"):
        write_files(tmp_path, {"a.md": "two\n", "b.md": "two\n"})
    assert (tmp_path / "a.md").read_text() == "one\n"
    assert not list(tmp_path.glob(".witnessmark-*"))


def test_a_folder_that_cannot_be_made_is_an_error_of_one_line(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(InputError, match="cannot be written"):
        write_files(tmp_path / "file" / "out", {"a.md": "one\n"})


def test_bytes_and_folders_and_finished_files_are_written(tmp_path):
    finished = tmp_path / "made.bin"
    finished.write_bytes(b"\x00large")
    out = tmp_path / "out"
    written = write_files(out, {"cards/c01.png": b"\x89\r\n", "copy.bin": finished, "a.md": "line\n"})
    assert [each.path for each in written] == [out / "cards" / "c01.png", out / "copy.bin", out / "a.md"]
    assert (out / "cards" / "c01.png").read_bytes() == b"\x89\r\n"
    assert (out / "copy.bin").read_bytes() == b"\x00large" and not finished.exists()


def test_an_edited_file_in_a_folder_is_kept_too(tmp_path):
    write_files(tmp_path, {"cards/c01.png": b"one"})
    (tmp_path / "cards" / "c01.png").write_bytes(b"mine")
    (written,) = write_files(tmp_path, {"cards/c01.png": b"two"})
    assert (tmp_path / "cards" / "c01.png").read_bytes() == b"mine"
    assert (tmp_path / "cards" / "c01.png.new").read_bytes() == b"two"
    assert (written.path, written.kept) == (tmp_path / "cards" / "c01.png.new", "cards/c01.png")


def test_a_whole_folder_keeps_nothing_of_before_but_what_was_edited(tmp_path):
    write_files(tmp_path, {"cards/c01.png": b"1", "cards/c02.png": b"2", "cards/c03.png": b"3", "a.md": "a"})
    (tmp_path / "cards" / "c03.png").write_bytes(b"mine")
    (tmp_path / "cards" / "own.png").write_bytes(b"own")
    write_files(tmp_path, {"cards/c01.png": b"1"}, whole=("cards",))
    assert sorted(path.name for path in (tmp_path / "cards").iterdir()) == ["c01.png", "c03.png", "own.png"]
    assert (tmp_path / "a.md").exists()


def test_a_manifest_cannot_have_a_file_outside_taken_away(tmp_path):
    outside = tmp_path / "precious"
    outside.write_bytes(b"")
    out = tmp_path / "out"
    out.mkdir()
    digest = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"  # of nothing
    files = {"cards/../../precious": digest, "../precious": digest}
    (out / MANIFEST).write_text(json.dumps({"files": files}))
    write_files(out, {"a.md": "a"}, whole=("cards/../..", "..", "cards"))
    assert outside.exists()


def test_a_file_where_a_folder_is_needed_stops_everything(tmp_path):
    (tmp_path / "cards").write_text("")
    with pytest.raises(InputError, match="a file stands"):
        write_files(tmp_path, {"a.md": "a", "cards/c01.png": b"1"})
    assert not (tmp_path / "a.md").exists()


def test_an_edit_in_a_whole_folder_survives_any_number_of_builds(tmp_path):
    write_files(tmp_path, {"cards/c01.png": b"one"}, whole=("cards",))
    (tmp_path / "cards" / "c01.png").write_bytes(b"mine")
    for content in (b"two", b"three", b"three"):
        write_files(tmp_path, {"cards/c01.png": content}, whole=("cards",))
    assert (tmp_path / "cards" / "c01.png").read_bytes() == b"mine"
    assert (tmp_path / "cards" / "c01.png.new").read_bytes() == b"three"
