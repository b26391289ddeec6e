import pytest

from witnessmark.errors import InputError
from witnessmark.publication.build import WRITERS, asked_for, build
from witnessmark.publication.media import MEDIA

NAMES = [*(name for name, _ in WRITERS), *(medium.name for medium in MEDIA)]


def test_everything_unless_something_is_asked():
    assert list(asked_for()) == NAMES


def test_only_and_skip_in_the_order_of_the_list():
    assert asked_for(only=("kit.md", "findings.md")) == ("findings.md", "kit.md")
    assert list(asked_for(skip=("facts.json",))) == [name for name in NAMES if name != "facts.json"]
    assert asked_for(only=("kit.md", "kit.csv"), skip=("kit.csv",)) == ("kit.md",)


@pytest.mark.parametrize("option", ["only", "skip"])
def test_an_unknown_name_names_the_nearest_and_all(option):
    with pytest.raises(InputError, match=r"'chapter\.txt' is written, the nearest is 'chapters\.txt'") as refused:
        asked_for(**{option: ("chapter.txt",)})
    assert refused.value.where == f"build --{option}"
    assert all(name in refused.value.remedy for name in NAMES)


def test_a_file_that_comes_with_another_brings_it():
    assert asked_for(only=["contact_sheet.jpg", "corrections.edl"]) == ("stills", "corrections.otio")
    assert "corrections.otio" not in asked_for(skip=["corrections.edl"])


def test_nothing_of_what_is_asked_can_be_made(examined, tmp_path):
    notes: list[str] = []
    assert build(examined, tmp_path, ("stills",), note=notes.append) == ()
    assert len(notes) == 1 and notes[0].startswith("nothing is written of stills: stills need a video")


def test_nothing_left_is_an_error():
    with pytest.raises(InputError, match="no file is left"):
        asked_for(skip=NAMES)
    for only in ("kit.md", "guide.md"):  # a guide brings its stills along, which were left
        with pytest.raises(InputError, match=f"--only and --skip both name {only}"):
            asked_for(only=(only,), skip=(only,))


def test_only_what_is_asked_is_written_and_the_rest_stays(examined, tmp_path):
    build(examined, tmp_path)
    before = (tmp_path / "guide.md").read_bytes()
    written = build(examined, tmp_path, ("kit.md",))
    assert [each.path.name for each in written] == ["kit.md"]
    assert (tmp_path / "guide.md").read_bytes() == before
    assert not list(tmp_path.glob("*.new"))
    assert {each.kept for each in build(examined, tmp_path)} == {None}


def test_a_guide_brings_its_stills_unless_they_are_skipped():
    assert asked_for(only=["guide.html"]) == ("guide.html", "stills")
    assert asked_for(only=["guide.html"], skip=["stills"]) == ("guide.html",)
    assert asked_for(only=["kit.md"]) == ("kit.md",)
