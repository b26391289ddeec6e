"""What is no step: greetings, farewells, history, prices, hearsay, jokes, talk about the channel."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.language.vocabulary import tokens_of
from witnessmark.procedure.lexicon import phrase_table
from witnessmark.procedure.model import Remark
from witnessmark.procedure.spoken import Spoken

EDGE = 0.12  # share of the recording in which people greet or take leave
RECAP = 0.08  # share of the recording in which it is summed up
REACH_BACK = 3  # tokens before a cue that belong to it
REACH = 12  # tokens after it, where no full stop or pause ends them sooner


@dataclass(frozen=True, slots=True)
class Talk:
    """A stretch of talk: tokens start..end (exclusive).

    kind: see data/procedure/talk.toml and notes.toml. cue: where its words stand.
    """

    start: int
    end: int
    kind: str
    cue: int


def find_talk(spoken: Spoken) -> tuple[Talk, ...]:
    """Every stretch of talk, in order; they may overlap."""
    cues: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for kind, forms in phrase_table("talk", "kinds").items():
        for form in forms:
            tokens = tokens_of(form)
            cues.setdefault(tokens[0], []).append((tokens, kind))
    found = []
    size = len(spoken.texts)
    for i, text in enumerate(spoken.texts):
        for tokens, kind in cues.get(text, ()):
            if (kind == "greeting" and i > size * EDGE) or (kind == "farewell" and i < size * (1 - EDGE)):
                continue
            if spoken.texts[i : i + len(tokens)] == tokens:
                found.append(Talk(*_stretch(spoken, i, i + len(tokens), kind), kind, i))
                break
    return tuple(found)


def _stretch(spoken: Spoken, start: int, end: int, kind: str) -> tuple[int, int]:
    """The words around a cue up to the end of what is said in one go."""
    utterance = spoken.utterances[spoken.utterance_of[start]]
    if kind in ("greeting", "farewell"):
        return utterance.start, utterance.end
    reach = 3 if kind in ("price", "joke") else REACH
    before = kind == "channel" or (kind == "history" and spoken.texts[end - 1] == "ago")
    back = REACH if before else REACH_BACK
    return max(utterance.start, start - back), min(utterance.end, end + reach)


def recap_start(spoken: Spoken) -> int:
    """First token of the run through the values that closes many recordings; the end where there is none."""
    size = len(spoken.texts)
    cues = [tokens_of(form) for form in phrase_table("talk", "recap")["cues"]]
    for i in range(int(size * (1 - RECAP)), size):
        if any(spoken.texts[i : i + len(cue)] == cue for cue in cues):
            return i
    return size


def remarks(spoken: Spoken, talk: Sequence[Talk]) -> tuple[Remark, ...]:
    """Talk as remarks, one an utterance and kind."""
    seen: dict[tuple[int, str], Remark] = {}
    for stretch in talk:
        number = spoken.utterance_of[stretch.cue]
        utterance = spoken.utterances[number]
        said = spoken.speech.said(utterance.start, utterance.end)
        seen.setdefault((number, stretch.kind), Remark(spoken.speech.tokens[utterance.start].start, said, stretch.kind))
    return tuple(seen.values())
