"""Names of things in speech: where one begins and ends, whether it says which thing is meant, how a guide writes it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.facing import facing
from witnessmark.procedure.lexicon import form_said, kinds, phrase_table, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.name_ends import closed_plural, moves_off, names_a_thing, new_count, new_dab, supply_article
from witnessmark.procedure.spoken import Spoken, display, is_nominal, is_plural
from witnessmark.reading.sightings import Sighting

LONGEST_NAME = 7  # words


@dataclass(frozen=True, slots=True)
class Name:
    """A thing as named at tokens start..end (exclusive).
    text: as a guide writes it, article included; "" where only a pronoun is said.

    count: the number said with it. head: last word. sizes: tool sizes said inside.
    which: what tells "the middle one" from the others. feminine: "her", as machines are called.
    """

    start: int
    end: int
    text: str
    head: str = ""
    plural: bool = False
    count: str = ""
    sightings: tuple[Sighting, ...] = ()
    sizes: tuple[ValueAt, ...] = ()
    which: str = ""
    feminine: bool = False

    @property
    def vague(self) -> bool:
        """Whether it does not say which thing is meant."""
        return not self.text


def read_name(spoken: Spoken, index: int) -> Name | None:
    """The name that begins at a token; None where none does."""
    if spoken.text(index) == spoken.text(index + 1) and kinds(spoken.text(index)).verb:
        return None  # "off, tap tap with the mallet"
    i, article, count, determined = _determiners(spoken, index)
    found = _words(spoken, i, determined)
    if count == "one" and found.words and is_plural(found.words[0]) and kinds(found.words[0]).verb:
        found = _Words([], [], [], i)  # "this one winds in"
    if not found.words:
        text = spoken.text(index)
        if text == "everything":
            return Name(index, index + 1, "everything", "everything")
        alone = (
            i == index + 1 and text in ("both", "each", "all") and not is_nominal(spoken.text(i))
        )  # "start both by hand"
        if (i > index and (count or alone or text in word_set("pronouns"))) or text in word_set("pronouns"):
            end = max(i, index + 1)
            if spoken.text(end) in word_set("predicates") and not spoken.stops_before(end) and i == index:
                return (
                    Name(index, end, "", plural=False)
                    if text in ("it", "that", "this")
                    and spoken.text(index - 1) not in word_set("vague")
                    and _subject(spoken, index)
                    else None
                )
            if spoken.text(end) in ("both", "all", "each"):
                end += 1
            return Name(
                index,
                end,
                "",
                plural=text in word_set("plural_pronouns") or bool(count) or alone,
                count=count,
                sizes=tuple(found.sizes),
                feminine=text in ("her", "she"),
            )
        return None
    head = found.words[-1].split()[-1]
    if len(head) == 1 or (head[0].isdigit() and not found.sightings):
        return None
    if head in word_set("numbers") and not found.sightings and not (head in ("half", "one") and len(found.words) > 1):
        return Name(index, found.end, "", head, True, head, (), tuple(found.sizes))
    sided = len(found.words) > 1 and head in word_set("sides") and article == "the"
    if head in word_set("vague") and not found.sightings and not sided:
        return _of_which(spoken, index, found, article, count)
    text = " ".join(found.words)
    plural = is_plural(head)
    if not determined and not plural and found.sightings and found.sightings[-1].kind == "supply":
        article = supply_article(spoken, index, found.end, text)
    name = Name(
        index,
        found.end,
        _with_article(article, count, text, plural),
        head,
        plural,
        count,
        tuple(found.sightings),
        tuple(found.sizes),
    )
    return _with_of(spoken, name)


def _determiners(spoken: Spoken, index: int) -> tuple[int, str, str, bool]:
    """Articles, owners and numbers before a name: (next token, article, count, whether any was said)."""
    i, article, count = index, "", ""
    while i < len(spoken.texts):
        text = spoken.texts[i]
        if i > index and spoken.stops_before(i):
            break
        if spoken.value_over.get(i) is not None:
            break
        if text in word_set("quantifiers") and not count:
            article = {"all": "all the", "some": "some", "any": "any"}.get(text, text)
        elif text in ("a", "an", "the") or (text in word_set("owners") and _leads(spoken, i)):
            article = article if article in ("all the", "both", "each") else (text if text in ("a", "an") else "the")
        elif text == "of" and (article or (count and spoken.text(i + 1) in word_set("determiners"))):
            pass
        elif (
            (text in word_set("numbers") or text.isdigit())
            and spoken.sighting_over.get(i) is None
            and text not in ("half", "quarter")
        ):
            count = text
        else:
            break
        i += 1
    return i, article, count, i > index


def _leads(spoken: Spoken, index: int) -> bool:
    """Whether an owner ("this", "his", "them") stands before a noun and not for one."""
    follows = spoken.text(index + 1)
    told_of = not spoken.stops_before(index + 2) and is_nominal(spoken.text(index + 2))
    acts = kinds(follows).verb == follows and spoken.text(index + 2) in word_set("objects") | word_set("determiners")
    if spoken.text(index) == "them" and spoken.text(index - 1) == "of" and acts:
        return False  # "all of them count them"
    if follows in word_set("ordinals") and (not told_of or spoken.text(index + 2) in PUNCTUATION):
        return False  # "do that first"
    return not spoken.stops_before(index + 1) and (
        is_nominal(follows) or index + 1 in spoken.sighting_over or follows in word_set("numbers") or follows.isdigit()
    )


def _subject(spoken: Spoken, index: int) -> bool:
    """Whether a pronoun begins its clause, so that what follows is said of it."""
    before = spoken.text(index - 1)
    return (
        spoken.stops_before(index)
        or before in word_set("conjunctions")
        or before in word_set("fillers")
        or not kinds(before).verb
    )


@dataclass(slots=True)
class _Words:
    """Words of a name while it is read."""

    words: list[str]
    sightings: list[Sighting]
    sizes: list[ValueAt]
    end: int


def _words(spoken: Spoken, index: int, determined: bool) -> _Words:
    """The words from a token on that can be one name."""
    found = _Words([], [], [], index)
    i = index
    while i < len(spoken.texts) and len(found.words) < LONGEST_NAME:
        if i > index and spoken.stops_before(i):
            break
        value = spoken.value_over.get(i)
        if value is not None and value.start_token == i and not (sighting_starts(spoken, i)):
            if value.kind != "tool_size" or (found.words and spoken.text(value.end_token) in word_set("drivers")):
                break
            found.sizes.append(value)
            i = value.end_token
            continue
        sighting = spoken.sighting_over.get(i)
        if sighting is not None:
            if sighting.start != i or (found.words and _new_thing(spoken, index, sighting, found, determined)):
                break
            if found.words and sighting.kind == "tool" and found.words[-1] in ("end", "side"):
                found.words.clear()  # "now the inside end pry bar behind it"
            found.words.append(display(spoken, sighting))
            found.sightings.append(sighting)
            i = found.end = sighting.end
            continue
        if not _continues(spoken, i, bool(found.words), determined, found):
            break
        text = spoken.texts[i]
        if text not in word_set("empty_adjectives") or (text == "little" and spoken.text(i - 1) == "a"):
            found.words.append(text)
        i += 1
        found.end = i
    _trim(spoken, index, found)
    return found


def _new_thing(spoken: Spoken, start: int, sighting: Sighting, found: _Words, determined: bool) -> bool:
    """Whether a thing of the vocabulary begins another name and does not end the one read so far from a token on."""
    first, last, long = found.words[0], found.words[-1].split()[-1], sighting.end - sighting.start > 1
    if spoken.texts[sighting.start] in word_set("places_first"):
        return True
    if not found.sightings:
        apart = (not determined or first in word_set("apart")) and not kinds(first).adjective
        told = last in word_set("idle") and spoken.text(start) in ("a", "an")  # "a lovely day rear cover back on"
        return (apart and first not in word_set("name_words")) or told or closed_plural(found.words)
    before = found.sightings[-1]
    if before.item is not None:
        return True
    if before.kind == "tool":
        return sighting.kind == "tool" or (long and sighting.kind == "part")  # "with the wrench bottle cage back on"
    if sighting.kind in ("tool", "supply"):
        return long  # "in the gear wire brush on the teeth"
    led = spoken.text(start - 1 - (spoken.text(start - 1) in word_set("determiners"))) in word_set("prepositions")
    return long and led and spoken.text(sighting.end) in word_set("particles") | {"goes", "comes"}


def sighting_starts(spoken: Spoken, index: int) -> bool:
    """Whether a thing is named from this token on."""
    sighting = spoken.sighting_over.get(index)
    return sighting is not None and sighting.start == index


def _continues(spoken: Spoken, i: int, begun: bool, determined: bool, found: _Words) -> bool:
    """Whether a word that no vocabulary knows goes on with the name."""
    text = spoken.texts[i]
    ended = bool(found.sightings) and found.sightings[-1].end == i and is_plural(spoken.texts[i - 1])
    if begun and (
        (ended and not text.isdigit())  # "behind the wheels key is out"
        or found.words[-1] in ("one", "ones")
        or new_dab(spoken, i)
        or new_count(spoken, i)
        or (text == "half" and spoken.text(i + 1) in ("a", "an"))  # "with your thumb half an inch"
        or facing(spoken, i) is not None
        or form_said(spoken.texts, i, "verbs", "assure")
        or text == found.words[-1]
    ):
        return False
    if begun and not found.sightings and closed_plural(found.words) and text not in word_set("depots"):
        return False
    if (text in ("one", "ones") and (begun or determined)) or (
        text in ("back", "front", "top", "bottom") and determined and not begun and spoken.text(i + 1) == "of"
    ):
        return True
    if begun and determined and text in word_set("marks_made") and spoken.text(i + 1) in word_set("marked_where"):
        return True  # "a paint mark on the gear"
    if (text in ("can", "well") and spoken.text(i - 1) in ("a", "the")) or (not begun and new_dab(spoken, i)):
        return True
    shaped = (
        text.endswith(("ed", "en", "ing"))
        and bool(kinds(text).verb)
        and (determined or begun)
        and is_nominal(spoken.text(i + 1))
    )
    if text in PUNCTUATION or not (is_nominal(text) or shaped) or not text[0].isalnum():
        return False
    what = kinds(text)
    follows = spoken.text(i + 1)
    if begun and text in word_set("places_first") and found.words[-1] not in word_set("name_words"):
        return False
    if text in word_set("name_words") and not what.noun and not is_nominal(follows) and follows not in ("one", "ones"):
        return False
    handed = text in ("right", "left") and follows == "hand"
    if text in word_set("describes_first") and not handed and (begun or not is_nominal(follows) or not determined):
        return determined and not begun and is_nominal(follows)
    acts = _acts(spoken, i, found.words)
    ended_here = bool(found.sightings) and found.sightings[-1].end == i
    if (
        text in word_set("rather_things")
        and begun
        and determined
        and not ended_here
        and follows not in word_set("objects")
    ):
        return True  # "the metal waste bin"
    headless = determined and begun and what.noun and found.words[-1] in word_set("needs_noun")  # "the inner joint"
    if acts and (begun or not determined) and not headless and text not in phrase_table("verbs", "switched")["things"]:
        return False
    # after a thing of the vocabulary only another noun goes on with its name
    return not (found.sightings and (not what.noun or (what.verb and what.adverb)))


def _acts(spoken: Spoken, i: int, before: Sequence[str]) -> bool:
    """Whether a word is rather the verb of what follows it. before: the name's words so far."""
    text, follows = spoken.texts[i], spoken.text(i + 1)
    pointed = text == "hand" and follows in ("one", "ones")  # "right hand one"
    if not kinds(text).verb or text in word_set("hardly_verbs") or pointed:
        return False
    return (
        follows in word_set("determiners")
        or follows in word_set("pronouns")
        or follows in ("again", "sure")
        or (follows in word_set("particles") and not names_a_thing(spoken, i, before))
        or moves_off(spoken, i)
    )


def _trim(spoken: Spoken, start: int, found: _Words) -> None:
    """Take back words at the end that cannot be the head of a name."""
    while found.words and not found.sightings:
        last = found.words[-1].split()[-1]
        what = kinds(last)
        if (what.noun and last not in word_set("no_heads")) or last in word_set("dabs"):
            break
        found.words.pop()
        found.end -= 1
    while found.sightings and found.words and found.end > found.sightings[-1].end:
        last = found.words[-1]
        sided = last in ("side", "end") and spoken.text(start - 1) in word_set("prepositions") | word_set("determiners")
        if sided or (kinds(last).noun and last not in word_set("name_words") and last not in word_set("vague")):
            break
        found.words.pop()
        found.end -= 1


def _with_article(article: str, count: str, text: str, plural: bool) -> str:
    """A name with the article a guide gives it."""
    first = text.split()[0]
    if article in ("a", "an") and plural and count in ("pair", "couple"):
        return f"a {count} of {text}"
    if article in ("a", "an"):
        return f"{'an' if first[0] in 'aeiou' or first[:2] in ('8 ', '11') else 'a'} {text}"
    if article == "both" and plural:
        return f"both {text}"
    if article == "some":
        return text
    if article in ("each", "every", "either", "another", "any"):
        return f"{article} {text}"
    if article == "all the":
        return f"all the {text}"
    if count and count != "one" and plural:
        return f"the {count} {text}"
    return f"the {text}"


def _of_which(spoken: Spoken, index: int, found: _Words, article: str, count: str) -> Name | None:
    """ "The end of the wrench" names a thing; "the big guy" only points at one."""
    head = found.words[-1].split()[-1]
    plural = is_plural(head)
    if spoken.text(found.end) == "of" and not spoken.stops_before(found.end):
        whole = read_name(spoken, found.end + 1)
        if whole is not None and not whole.vague:
            inner = " ".join(found.words)
            if head in word_set("portions"):
                return Name(index, whole.end, whole.text, whole.head, whole.plural, count, whole.sightings, whole.sizes)
            text = f"{_with_article(article, count, inner, plural)} of {_as_said(spoken, whole)}"
            return Name(index, whole.end, text, head, plural, count, whole.sightings, whole.sizes)
    which = " ".join(found.words[:-1]) if head in ("one", "ones") else ""
    return Name(index, found.end, "", head, plural, count, (), tuple(found.sizes), which)


def _with_of(spoken: Spoken, name: Name) -> Name:
    """A name with the "of ..." that belongs to it."""
    if spoken.text(name.end) != "of" or spoken.stops_before(name.end):
        return name
    whole = read_name(spoken, name.end + 1)
    if whole is None or whole.vague:
        return name
    return Name(
        name.start,
        whole.end,
        f"{name.text} of {_as_said(spoken, whole)}",
        name.head,
        name.plural,
        name.count,
        (*name.sightings, *whole.sightings),
        (*name.sizes, *whole.sizes),
    )


def _as_said(spoken: Spoken, whole: Name) -> str:
    """The text of a name behind "of", without an article that was not said: "a lump of ply"."""
    return whole.text if spoken.text(whole.start) in word_set("determiners") else whole.text.removeprefix("the ")


def cut_at(spoken: Spoken, name: Name, end: int) -> Name:
    """A name that ends at a token, where talk without stops ran on: "the back wheels | key is out"."""
    dropped = " ".join(spoken.texts[end : name.end])
    if not dropped or not name.text.endswith(f" {dropped}"):
        return name
    head = spoken.text(end - 1)
    return replace(name, end=end, text=name.text.removesuffix(f" {dropped}"), head=head, plural=is_plural(head))


def with_place(spoken: Spoken, name: Name) -> Name:
    """A name with the place behind it, where one is told: "the metal around the hinge"."""
    led = spoken.text(name.end) in word_set("linking") and not spoken.stops_before(name.end)
    place = read_name(spoken, name.end + 1) if led else None
    if place is None or place.vague:
        return name
    return replace(name, end=place.end, text=f"{name.text} {spoken.text(name.end)} {place.text}")
