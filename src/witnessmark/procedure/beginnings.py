"""Where what is told of a thing may begin, and where its name is only part of something said before it."""

from witnessmark.procedure.lexicon import acting_verbs, kinds, phrase_table, word_set
from witnessmark.procedure.moods import words_before
from witnessmark.procedure.spoken import Spoken, is_plural

MARKED = 12  # tokens back within which a mark makes what follows "so" its purpose
ALIKE = 8  # tokens within which it is told that all is to be as it was


def may_begin(spoken: Spoken, index: int, since: int) -> int:
    """Whether a clause can begin at a token: 0 no, 1 if what follows says so plainly, 2 yes."""
    if spoken.stops_before(index) or (index == since and spoken.text(index - 1) not in word_set("conditions")):
        return 2
    before = words_before(spoken, index, since)
    if before and (
        before[-1] in word_set("conditions")
        or before[-1] in ("not", "n't")
        or (before[-1] in word_set("subjects") and before[-2:-1] and before[-2] in word_set("conditions"))
    ):
        return 0
    last = spoken.text(index - 1)
    given = last in word_set("objects") and kinds(spoken.text(index - 2)).verb == "give"
    if last == "think" or given:
        return 0  # "you would think the bolt comes out", "give it a tap on the end"
    way_round = last == "round" and spoken.text(index - 2) == "way"
    if last in word_set("prepositions") and last not in word_set("particles_before") and not way_round:
        return 0
    determined = spoken.text(index) in word_set("determiners")
    if determined and (last in word_set("particles_before") or _acted_on(spoken, index)):
        return 0
    if last in ("he", "she", "they", "we", "i"):
        return 0  # "he glides over": the word is the verb
    if _inside_name(spoken, index) or spoken.moves_by_itself(index):
        return 0
    if last == "which" or (last in word_set("having") and spoken.text(index - 2) in word_set("subjects")):
        return 0
    if last in word_set("determiners") or last in word_set("numbers") or spoken.value_over.get(index - 1) is not None:
        return 0
    if last.endswith("ing") and kinds(last).verb and spoken.sighting_over.get(index - 1) is None:
        return 0
    if last.endswith("ed") and kinds(last).verb and not kinds(last).adjective and last not in word_set("states"):
        return 0
    plain = not before or last in word_set("fillers") or before[-1] in word_set("clause_ends") or kinds(last).noun
    return 2 if plain else 1


def is_purpose(spoken: Spoken, index: int) -> bool:
    """Whether it is only told what a deed is for: "draw an arrow on it so it goes back the same way"."""
    so = index - 2 if spoken.text(index - 1) == "that" else index - 1
    if spoken.text(so) != "so" or spoken.stops_before(so) or spoken.text(so - 1) in word_set("fillers"):
        return False
    marked = bool(set(spoken.texts[max(0, so - MARKED) : so]) & word_set("marked_with"))
    end = next((i for i in range(index + 1, index + ALIKE) if spoken.stops_before(i)), index + ALIKE)
    return marked or so == index - 2 or bool(set(spoken.texts[index:end]) & word_set("as_it_was"))


def _acted_on(spoken: Spoken, index: int) -> bool:
    """Whether the thing named at a token is what the verb before it acts on: "before i took the belt off",
    "these bolts hold the whole brake on", "the spring pushes the lever back on".
    """
    last, before = spoken.text(index - 1), spoken.text(index - 2)
    base = kinds(last).verb
    if last in phrase_table("verbs", "light") or (base == last and is_plural(before)):
        return True
    thing = spoken.sighting_over.get(index - 1) is not None or last in spoken.nouns or last in word_set("particles")
    acts = base in acting_verbs() and last not in word_set("having")
    if before in word_set("auxiliaries") or before == "to":
        return acts  # "he would hammer the pulley off"
    return acts and not thing and before not in word_set("determiners") | word_set("numbers")


def _inside_name(spoken: Spoken, index: int) -> bool:
    """Whether a token stands inside a name that began before it: "by turning the big | pulley by hand"."""
    last = spoken.text(index - 1)
    if last in word_set("name_words") and spoken.text(index - 3) == "from":
        return True  # "from the top rim"
    if spoken.text(index - 2) not in word_set("determiners") or spoken.text(index) in ("one", "ones"):
        return False
    place = last in word_set("sides_of") and spoken.text(index - 3) in (
        "on",
        "at",
        "to",
        "in",
    )  # "on the front washer on"
    return last in word_set("empty_adjectives") or (last in word_set("name_words") and not place)
