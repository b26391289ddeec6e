"""A transcript as spaCy sees it: tokens that know their times, the vocabulary matched by lemma, breaks in the flow of talk."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import pairwise
from statistics import median

from spacy.matcher import PhraseMatcher
from spacy.tokens import Doc, Span
from spacy.util import filter_spans
from spacy.vocab import Vocab

from witnessmark.language.tokens import PUNCTUATION, SENTENCE_END, tokenize
from witnessmark.language.vocabulary import key_of, lemmas_of, tokens_of
from witnessmark.transcript.model import Transcript

LONG_PAUSE = 0.9
SHORT_PAUSE = 0.25
UNTIMED = ("stamped text", "bracketed text")  # forms that tell no silence: times to the second, for many words at once


@dataclass(frozen=True, slots=True)
class Token:
    """One token of speech. text: lower case. lemma: singular, American spelling. start, end: seconds. word: index into Transcript.words."""

    text: str
    lemma: str
    start: float
    end: float
    word: int


@dataclass(frozen=True, slots=True)
class Correction:
    """A stretch of caption words read as other words. start, end: word indices, end exclusive. said, meant: before and after. why: one sentence."""

    start: int
    end: int
    said: str
    meant: str
    why: str
    confirmed: bool


@dataclass(frozen=True)
class Speech:
    """The whole recording as tokens. doc: the same tokens for spaCy's matchers."""

    transcript: Transcript
    tokens: tuple[Token, ...]
    doc: Doc
    corrections: tuple[Correction, ...] = ()

    @cached_property
    def texts(self) -> tuple[str, ...]:
        """Every token's text."""
        return tuple(token.text for token in self.tokens)

    @cached_property
    def lemmas(self) -> tuple[str, ...]:
        """Every token's lemma."""
        return tuple(token.lemma for token in self.tokens)

    @cached_property
    def pauses(self) -> tuple[float, ...]:
        """Seconds of silence after each token, 0.0 where the next one follows at once or the captions do not tell."""
        return _pauses(self)

    def said(self, start: int, end: int) -> str:
        """The captions' own words behind tokens start..end (exclusive)."""
        words = self.transcript.words[self.tokens[start].word : self.tokens[end - 1].word + 1]
        return " ".join(word.text for word in words)

    def span_times(self, start: int, end: int) -> tuple[float, float]:
        """Start and end in seconds of tokens start..end (exclusive)."""
        return self.tokens[start].start, self.tokens[end - 1].end

    def find(self, phrases: Iterable[tuple[str, str]]) -> list[tuple[int, int, str]]:
        """Where phrases (label, spoken form) are said, by lemma, longest first and never overlapping: (start, end, label)."""
        spoken = set(self.lemmas)
        # A phrase with a word that is never said cannot be found; leaving it out spares building it, which costs most of the time.
        matcher = _matcher([(label, form) for label, form in phrases if spoken.issuperset(key_of(form))])
        spans = [Span(self.doc, start, end, label=label) for label, start, end in matcher(self.doc)]
        return [(span.start, span.end, span.label_) for span in filter_spans(spans)]


@cache
def _vocab() -> Vocab:
    """One vocabulary for all recordings. Bare: texts and lemmas come from us, and a whole English pipeline takes long to build."""
    return Vocab()


def _matcher(phrases: Iterable[tuple[str, str]]) -> PhraseMatcher:
    """The matcher of one set of phrases, by lemma."""
    vocab = _vocab()
    matcher = PhraseMatcher(vocab, attr="LEMMA")
    for label, form in phrases:
        tokens = tokens_of(form)
        if tokens:
            matcher.add(label, [Doc(vocab, words=list(tokens), lemmas=list(key_of(form)))])
    return matcher


def read_speech(
    transcript: Transcript, correct: Callable[[Sequence[str]], Sequence[tuple[int, int, str, str, bool]]] | None = None
) -> Speech:
    """Tokens of a transcript.

    correct: finds misheard words; given all tokens it answers (start, end, meant, why, confirmed) in token indices.
    The corrected words are read in place of the captions' own, which `Speech.said` still tells.
    """
    raw = [(text, index) for index, word in enumerate(transcript.words) for text in tokenize(word.text)]
    corrections: list[Correction] = []
    if correct is not None:
        shift = 0
        for start, end, meant, why, confirmed in correct([text for text, _ in raw]):
            first, last = raw[start + shift][1], raw[end - 1 + shift][1]
            said = " ".join(word.text for word in transcript.words[first : last + 1])
            corrections.append(Correction(first, last + 1, said, meant, why, confirmed))
            new = tokens_of(meant)
            spread = [(text, min(last, first + i * (last - first + 1) // len(new))) for i, text in enumerate(new)]
            raw[start + shift : end + shift] = spread
            shift += len(new) - (end - start)
    return _speech(transcript, raw, tuple(corrections))


def _speech(transcript: Transcript, raw: Sequence[tuple[str, int]], corrections: tuple[Correction, ...]) -> Speech:
    words = transcript.words
    texts = [text for text, _ in raw]
    lemmas = lemmas_of(texts)
    tokens = tuple(
        Token(text, lemma, words[i].start, words[i].end, i) for (text, i), lemma in zip(raw, lemmas, strict=True)
    )
    doc = Doc(_vocab(), words=texts, lemmas=list(lemmas))
    return Speech(transcript, tokens, doc, corrections)


def _pauses(speech: Speech) -> tuple[float, ...]:
    """Silence is what a word's time holds beyond its length; captions with rolling words give only starts, so length is judged from the letters."""
    words = speech.transcript.words
    spans = [(b.start - a.start, 4 + len(a.text)) for a, b in pairwise(words)]
    rate = median(span / size for span, size in spans) if spans else 0.0
    excess = [max(0.0, span - rate * size) for span, size in spans]
    gaps = [max(0.0, b.start - a.end) for a, b in pairwise(words)]
    told = speech.transcript.format not in UNTIMED
    silence = [max(gap, more if told else 0.0) for gap, more in zip(gaps, excess, strict=True)] + [0.0]
    last_of_word = [a.word != b.word for a, b in pairwise(speech.tokens)] + [True] if speech.tokens else []
    return tuple(silence[token.word] if last else 0.0 for token, last in zip(speech.tokens, last_of_word, strict=True))


def breaks_after(speech: Speech, index: int) -> bool:
    """Whether the flow of talk stops after a token: a full stop or a long silence."""
    return speech.tokens[index].text in SENTENCE_END or speech.pauses[index] >= LONG_PAUSE


def is_word(text: str) -> bool:
    """Whether a token is speech and not punctuation."""
    return text not in PUNCTUATION
