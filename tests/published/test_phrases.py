"""Phrases are found where spaCy's PhraseMatcher finds them, and of those that overlap the same are kept."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from witnessmark.language.phrases import Phrases, longest

matcher = pytest.importorskip("spacy.matcher")
tokens = pytest.importorskip("spacy.tokens")
util = pytest.importorskip("spacy.util")
VOCAB = pytest.importorskip("spacy.vocab").Vocab()

word = some.sampled_from(["front", "brake", "pad", "bolt"])
phrase = some.lists(word, min_size=1, max_size=4).map(tuple)


def as_spacy_finds(phrases, said):
    of_spacy = matcher.PhraseMatcher(VOCAB, attr="LEMMA")
    for phrase in phrases:
        of_spacy.add(" ".join(phrase), [tokens.Doc(VOCAB, words=list(phrase), lemmas=list(phrase))])
    doc = tokens.Doc(VOCAB, words=said, lemmas=said)
    spans = [tokens.Span(doc, start, end, label=label) for label, start, end in of_spacy(doc)]
    return [[(span.start, span.end, span.label_) for span in which] for which in (spans, util.filter_spans(spans))]


@given(some.sets(phrase, max_size=6), some.lists(word, min_size=1, max_size=20))
def test_phrases_are_found_and_chosen_as_by_spacy(phrases, said):
    found = list(Phrases((phrase, " ".join(phrase)) for phrase in phrases).said(said))
    every, chosen = as_spacy_finds(phrases, said)
    assert sorted(found) == sorted(every)
    assert longest(found) == chosen


def test_of_two_for_the_same_words_the_first_counts():
    assert longest([(0, 2, "own"), (0, 2, "other"), (1, 4, "longer")]) == [(1, 4, "longer")]
    assert longest([(0, 2, "own"), (0, 2, "other")]) == [(0, 2, "own")]
