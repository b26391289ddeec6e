"""How a thing is mentioned: as what the talk is of, or only to say where, how it is meanwhile or what something is like."""

from witnessmark.procedure.lexicon import kinds, word_set
from witnessmark.procedure.spoken import Spoken
from witnessmark.reading.sightings import Sighting


def _lead(spoken: Spoken, index: int) -> int:
    """The token before a name that begins at a token, its article and adjectives skipped."""
    at = index - 1
    while at > index - 4 and spoken.text(at) in word_set("determiners") | word_set("name_words"):
        at -= 1
    return at


def led_aside(spoken: Spoken, index: int) -> bool:
    """Whether a preposition leads to the name at a token; behind a stop, or without an article behind "off", none does."""
    lead = _lead(spoken, index)
    if spoken.text(lead) not in word_set("prepositions") or spoken.stops_before(lead + 1):
        return False
    return lead < index - 1 or spoken.text(lead) not in word_set("ends_clause")


def turned_by(spoken: Spoken, index: int) -> bool:
    """Whether a tool is put on a thing by its size: "fifteen on the tensioner nut"."""
    lead = _lead(spoken, index)
    size = spoken.value_over.get(lead - 1)
    return spoken.text(lead) in ("on", "for") and size is not None and size.kind == "tool_size"


def turned_with(spoken: Spoken, index: int) -> bool:
    """Whether a size is told to be on the tool named at a token: "twenty one on the long bar"."""
    return turned_by(spoken, index) and spoken.text(index) in word_set("turning_bars")


def never_meant(spoken: Spoken, sighting: Sighting) -> bool:
    """Whether "it" cannot stand for a thing as it is mentioned here: "like a seal", "from the pulley side", "with the lid open"."""
    lead = _lead(spoken, sighting.start)
    led, follows = spoken.text(lead), spoken.text(sighting.end)
    if spoken.stops_before(sighting.end):
        follows = ""
    told_of_it = spoken.text(lead - 2) == "it" and spoken.text(lead - 1) in ("'s", "is", "sits")
    likened = led == "like" and spoken.text(sighting.start - 1) in ("a", "an")
    bar = turned_with(spoken, sighting.start)
    placed = led in word_set("prepositions") and (told_of_it or follows in ("side", "end"))
    raised = spoken.texts[sighting.end : sighting.end + 3] in (("off", "the", "ground"), ("off", "the", "floor"))
    meanwhile = led == "with" and follows in word_set("states") - {"in", "on"} and not raised
    measuring = sighting.name in word_set("measured_across") and "brake" not in spoken.texts
    if (
        _is_verb(spoken, sighting)
        or spoken.text(sighting.start - 1) in ("no", "without")
        or follows in word_set("named_after_thing")
    ):
        return True
    if " ".join(spoken.texts[sighting.start - 1 : sighting.end]) in word_set("no_thing_at_all"):
        return True
    return bar or likened or placed or meanwhile or measuring


def _is_verb(spoken: Spoken, sighting: Sighting) -> bool:
    """Whether the word taken for a thing is a verb: "the ones that sink you", "it 'll plug it"."""
    alone = sighting.end - sighting.start == 1 and kinds(spoken.texts[sighting.start]).verb
    led = spoken.text(sighting.start - 1) in ("that", "to", "'ll", "will", "n't", "they", "we", "i", "you")
    return bool(alone) and led and spoken.text(sighting.end) in ("you", "it", "them", "us", "me")


def told_with_many(spoken: Spoken, sighting: Sighting) -> bool:
    """Whether there are several of a thing named in the singular: "a spacer each side"."""
    said = " ".join(spoken.texts[sighting.end : sighting.end + 3])
    return any(f"{said} ".startswith(f"{form} ") for form in word_set("at_each")) and not spoken.stops_before(
        sighting.end
    )
