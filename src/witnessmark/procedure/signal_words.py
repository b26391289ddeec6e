"""Which signal word a danger calls for.

After ANSI Z535.4-2007 section 4.14 and ANSI Z535.6, as quoted by safetylabel.com (ansi-signal-words): the severity of the injury selects the
word, never the worth of the property; DANGER is kept for the extreme; NOTICE speaks of no injury at all.
"""

from typing import Literal

Injury = Literal["death_or_serious", "minor_or_moderate", "none"]
Likelihood = Literal["will", "could"]
Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]

ORDER: tuple[Signal, ...] = ("DANGER", "WARNING", "CAUTION", "NOTICE")


def signal_word(injury: Injury, likelihood: Likelihood) -> Signal:
    """The signal word for the worst credible injury, and whether it will or could follow if the danger is not avoided.

    >>> signal_word("death_or_serious", "could")
    'WARNING'
    """
    if injury == "none":
        return "NOTICE"
    if injury == "minor_or_moderate":
        return "CAUTION"
    return "DANGER" if likelihood == "will" else "WARNING"
