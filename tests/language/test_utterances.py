"""Speech cut into utterances."""

from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.language.speech import Speech, read_speech
from witnessmark.language.utterances import find_utterances, is_punctuated
from witnessmark.transcript.model import Cue, Transcript, Word


def speech_of(text: str, fmt: str = "SubRip") -> Speech:
    """Speech at an even rate; "|" is a pause of 1.5 s."""
    words, time = [], 0.0
    for piece in text.split():
        if piece == "|":
            time += 1.5
            continue
        words.append(Word(piece, time, time + 0.3, 0))
        time += 0.3
    return read_speech(Transcript(fmt, (Cue(0.0, time, text),), tuple(words)))


def said(text: str, fmt: str = "SubRip") -> list[str]:
    speech = speech_of(text, fmt)
    return [" ".join(speech.texts[u.start : u.end]) for u in find_utterances(speech)]


def test_a_pause_parts() -> None:
    assert said("pull the cover off | lift the filter out") == ["pull the cover off", "lift the filter out"]


def test_full_stops_part_where_the_captions_have_them() -> None:
    assert said("Pull the cover off. Lift the filter out.") == ["pull the cover off .", "lift the filter out ."]


def test_openers_part_where_no_pause_tells() -> None:
    found = said(
        "pull the cover off and put it on the bench out of the way okay so lift the filter out and look at it",
        "stamped text",
    )
    assert found == [
        "pull the cover off and put it on the bench out of the way",
        "okay so lift the filter out and look at it",
    ]


def test_gaps_of_coarse_captions_are_no_pauses() -> None:
    assert said("pull the | cover off", "stamped text") == ["pull the cover off"]


def test_a_longer_pause_parts_more() -> None:
    first, second = find_utterances(speech_of("pull the cover off | lift the filter out"))
    assert (first.start, second.parted) == (0, 1.0)


def test_captions_without_full_stops_are_told_from_those_with() -> None:
    assert is_punctuated(speech_of("One thing. Then another."))
    assert not is_punctuated(speech_of("one thing then another " * 20))


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.sampled_from(["okay", "so", "now", "bolt.", "the", "and", "then", "|", "pull", "it", "off,"]), max_size=80
    )
)
def test_together_they_hold_every_token(words: list[str]) -> None:
    speech = speech_of(" ".join(words))
    spans = [(u.start, u.end) for u in find_utterances(speech)]
    assert [i for start, end in spans for i in range(start, end)] == list(range(len(speech.tokens)))
