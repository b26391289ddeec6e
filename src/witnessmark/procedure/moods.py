"""What the words before a verb make of it: to be done, not to be done, or nothing of the reader's."""

from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import Literal

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.lexicon import form_of, forms_among, kinds, phrase_table, word_set
from witnessmark.procedure.spoken import Spoken, is_nominal, is_plural

Mood = Literal["do", "dont", "perhaps", "none"]
REACH_BACK = 12
HARM_AHEAD = 9  # tokens from a harm on within which its condition stands
OTHERS_TELL = 7  # words before a verb within which others are heard to tell it
TOLD_BACK = 24  # tokens back within which "i did" makes a past tense the speaker's own


@cache
def _frames(name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Frames of one list by their last word, longest first."""
    found: dict[str, list[tuple[str, ...]]] = {}
    forms: list[str] = phrase_table("frames", name)  # type: ignore[assignment]
    for form in forms:
        words = tuple(form.split())
        found.setdefault(words[-1], []).append(words)
    return {last: tuple(sorted(rows, key=lambda row: -len(row))) for last, rows in found.items()}


@cache
def _words(name: str) -> frozenset[str]:
    forms: list[str] = phrase_table("frames", name)  # type: ignore[assignment]
    return frozenset(forms)


def frame_before(words: Sequence[str], name: str) -> tuple[str, ...] | None:
    """The longest frame of a list that ends the words."""
    for frame in _frames(name).get(words[-1], ()) if words else ():
        if tuple(words[-len(frame) :]) == frame:
            return frame
    return None


def words_before(spoken: Spoken, index: int, since: int) -> list[str]:
    """The words of the same stretch before a token, fillers left out. since: token before which nothing counts."""
    i = index
    while i > max(since, index - REACH_BACK) and not spoken.stops_before(i):
        i -= 1
    words = spoken.texts[i:index]
    kept = [word for word in words if word not in word_set("fillers") and word not in PUNCTUATION]
    return [] if any(tuple(kept[-len(aside) :]) == aside for aside in _asides()) else kept


@cache
def _asides() -> tuple[tuple[str, ...], ...]:
    """What is said beside the work, without the words that only fill."""
    told = (tuple(aside.split()) for aside in sorted(word_set("asides")))
    return tuple(tuple(word for word in aside if word not in word_set("fillers")) for aside in told)


def mood_of(spoken: Spoken, index: int, base: str, since: int) -> Mood:
    """The mood of the verb at a token. base: its base form. since: where the action before it ended."""
    form = form_of(spoken.texts[index], base)
    words = words_before(spoken, index, since)
    if _told_by_others(words):
        return "none"
    if base not in word_set("sought_after") and _time_spent(words, form):
        return "do"
    if (form in ("base", "past") and spoken.texts[index] == base) or form == "base":
        return _base_mood(words, spoken, index, since, base)
    if form == "ing":
        if frame_before(words, "denies_doing"):
            return "dont"
        frame = frame_before(words, "doing")
        return "do" if frame and not _subordinate(words, frame) else "none"
    if form == "past":
        frame = frame_before(words, "done")
        if frame:
            return "none" if _subordinate(words, frame) else "perhaps"
        return "perhaps" if _goes_on(spoken, index, words) else "none"
    return "none"


def _time_spent(words: Sequence[str], form: str) -> bool:
    """Whether it is told how long the deed took the speaker: "i spent an hour cleaning", "took me an hour to clean"."""
    said = list(words[:-1] if words[-1:] == ["to"] else words)
    if not said or said[-1] not in word_set("times"):
        return False
    if form == "ing":
        at = next((i for i, word in enumerate(said) if word in ("spent", "spend")), None)
        return at is not None and (at == 0 or said[at - 1] in ("i", "we", "you", "'ve", "and", "to"))
    return (
        form == "base"
        and len(said) < len(words)
        and any(pair in (("took", "me"), ("took", "us")) for pair in pairwise(said))
    )


def _told_by_others(words: Sequence[str]) -> bool:
    """Whether it is what others would have one do: "some fool will tell you crank it to twenty"."""
    told = forms_among(words[-OTHERS_TELL:], _words("others_tell"))
    return bool(told) and not _words("own_telling") & set(words[-OTHERS_TELL:]) and "but" not in words


def _goes_on(spoken: Spoken, index: int, words: Sequence[str]) -> bool:
    """Whether a past tense goes on with what the speaker tells of their own work: "i cracked the nuts, jacked it up"."""
    if words and words[-1] not in ("and", "then", "so"):
        return False
    before = spoken.texts[max(0, index - TOLD_BACK) : index]
    return any(
        who in ("i", "we") and form_of(word, kinds(word).verb) == "past"
        for who, word in pairwise(before)
        if kinds(word).verb
    )


def _base_mood(words: Sequence[str], spoken: Spoken, index: int, since: int, base: str) -> Mood:
    denied = frame_before(words, "denies")
    if denied:
        return "none" if _subordinate(words, denied) or _of_another(words, denied) else "dont"
    asked = frame_before(words, "asks")
    if asked and not _asks_others(words, asked):
        return "do" if _is_asked(words, asked, spoken, index, base) else "none"
    if not words:
        return "do" if spoken.text(index - 1) not in _words("under") - {"or", "like"} or index == since else "none"
    last = words[-1]
    if last == "and" and _goes_on_with_purpose(words):
        return "none"
    if last in word_set("starters"):
        counted = kinds(last).adjective and words[-2:-1] and words[-2] in word_set("numbers") | word_set("determiners")
        nothing = last == "but" and words[-2:-1] == ["nothing"]
        return "none" if nothing or counted else "do"  # "one good whack"
    if last in _words("others") or last in _words("under"):
        return "none"
    if last in word_set("somebody") and not {*words[-4:-1]} & {"have", "get", "let"} and words[-2:-1] != ["and"]:
        return "none"  # "the last fellow put the filter in backwards"
    if spoken.text(index - 1) == last and (_does_it_itself(words) or _is_thing(spoken, index, words)):
        return "none"
    described = kinds(last).adjective and not (kinds(last).adverb or kinds(last).verb or kinds(last).noun)
    if described and kinds(spoken.texts[index]).noun and spoken.text(index - 1) == last:
        return "none"  # "one big bolt"
    lead = set(words[-4:-1]) & word_set("many")
    return "none" if is_plural(last) and spoken.text(index - 1) == last and lead else "perhaps"


def _goes_on_with_purpose(words: Sequence[str]) -> bool:
    """Whether "and" goes on with what something is kept from: "hold it so it does n't swing round and sit on the casing"."""
    kept = (f"so {who} {form}" for who in ("it", "they", "she", "he") for form in _words("kept_from"))
    return bool(forms_among(words, kept))


def _asks_others(words: Sequence[str], frame: Sequence[str]) -> bool:
    """Whether "do" or "go" is somebody else's: "the pads do stick"."""
    alone = len(frame) == 1 and frame[0] in ("do", "go") and len(words) > 1
    return alone and words[-2] in _words("others") - {"you", "we", "i"}


def _is_asked(words: Sequence[str], frame: Sequence[str], spoken: Spoken, index: int, base: str) -> bool:
    """Whether a frame that asks for a deed asks the reader, and not only tells what would be."""
    before = words[: len(words) - len(frame)]
    supposed = _subordinate(words, frame) or _denied_before(words, frame) or _outcome(spoken, index, words, frame)
    of_third = frame[0] in word_set("half_frames") and bool(before) and before[-1] in word_set("third_subjects")
    sensed = base in word_set("senses") and frame[-1] in ("'ll", "can", "will")
    return not (supposed or of_third or sensed or _is_harm(spoken, index, base, frame))


def _does_it_itself(words: Sequence[str]) -> bool:
    """Whether a plural stands before a plain verb as its subject: "these big ones hold the weight",
    "because the two springs pull the shoes together".
    """
    if not is_plural(words[-1]) or words[-1] in word_set("auxiliaries"):
        return False
    start = len(words) - 1
    while start and (is_nominal(words[start - 1]) or words[start - 1] in word_set("numbers")):
        start -= 1
    led = start > 0 and words[start - 1] in word_set("determiners")
    before = words[start - 1 - led] if start > led else ""
    return not before or (led and (before in _words("under") or before in ("so", "and", "but")))


def _is_thing(spoken: Spoken, index: int, words: Sequence[str]) -> bool:
    """Whether a word that can be a verb ends the name that an article begins: "a recycling bin", "that long pry bar"."""
    text, last = spoken.texts[index], words[-1]
    told_apart = last in word_set("empty_adjectives") or (last in word_set("name_words") - word_set("sides_of"))
    if told_apart and kinds(text).noun and words[-2:-1] and words[-2] in word_set("determiners"):
        return True  # "the little screw on the hook"
    if text not in word_set("rather_things") or spoken.text(index + 1) in word_set("objects"):
        return False
    if last in word_set("vague") or last in word_set("body") or is_plural(last):
        return False
    described = is_nominal(last) or last.endswith("ing")
    return described and bool(set(words[-3:-1]) & word_set("determiners"))


def _subordinate(words: Sequence[str], frame: Sequence[str]) -> bool:
    """Whether a frame stands under a condition or a reason: "if you ...", "because we ..."."""
    before = words[: len(words) - len(frame)]
    return (
        bool(before)
        and (before[-1] in _words("under") or tuple(before[-2:]) in (("every", "time"), ("each", "time")))
        and not (before[-1] == "that" and len(before) > 1 and before[-2] == "after")
    )


def _of_another(words: Sequence[str], frame: Sequence[str]) -> bool:
    """Whether it is told what something does not do: "it do n't read", "they never leak"."""
    before = words[: len(words) - len(frame)]
    return bool(before) and frame[0] in ("do", "never") and before[-1] in ("it", "he", "she", "they", "that")


def _outcome(spoken: Spoken, index: int, words: Sequence[str], frame: Sequence[str]) -> bool:
    """Whether "and then you ..." only goes on with what would happen: "if you leave it in, ..

    and then you strip it".
    """
    if frame[-1] == "'ll" and "n't" in words[-len(frame) - 8 : -len(frame)]:
        return True  # "don't force it you'll snap one off"
    if tuple(frame) != ("you",) or len(words) < 2 or words[-2] not in ("then", "and"):
        return False
    start = spoken.utterances[spoken.utterance_of[index]].start
    before = spoken.texts[max(index - 26, start - 12, 0) : index]
    return "if" in before or ("'ll" in before[-8:] and "otherwise" in before)


def _is_harm(spoken: Spoken, index: int, base: str, frame: Sequence[str]) -> bool:
    """Whether it is told what would go wrong: "you'll strip the threads", "you can crack the housing if you ..."."""
    if frame[-1] not in ("'ll", "will", "can", "could", "might", "'d") or base not in word_set("harms"):
        return False
    after = spoken.texts[index + 1 : index + HARM_AHEAD]
    return bool({"if", "when"} & set(after)) or not {"loose", "off", "free", "out", "open"} & set(after)


def _denied_before(words: Sequence[str], frame: Sequence[str]) -> bool:
    before = words[: len(words) - len(frame)]
    return bool(before) and before[-1] in ("n't", "not", "should", "could", "would")
