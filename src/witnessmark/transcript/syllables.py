"""How many syllables a written word has when it is spoken in English: the measure by which words share time.

An estimate by groups of vowels; *common practice*, good to about one syllable in ten words. Figures count as they are
spoken: 77 is sev-en-ty sev-en.
"""

import re
from functools import lru_cache

_PART = re.compile(r"[0-9]+|[^\W\d_]+")
_VOWELS = re.compile(r"[aeiouyàáâäæèéêëìíîïòóôöøùúûü]+")
_SILENT_END = re.compile(r"(?:[^aeiouylr]e|[aeiouy][lr]e|[gq]ue|[^aeiouytd]ed|[^aeiouyscxzglr]es|[aeiouy][lr]es)$")
_UNDER_TWENTY = (2, 1, 1, 1, 1, 1, 1, 2, 1, 1, 1, 3, 1, 2, 2, 2, 2, 3, 2, 2)
_TENS = (0, 0, 2, 2, 2, 2, 2, 3, 2, 2)


@lru_cache(maxsize=65_536)
def syllables(word: str) -> int:
    """Syllables of a word as written, at least 1; its marks count for nothing, save the point between figures."""
    count = 0
    end = -1
    word = word[:200].casefold()
    for part in _PART.finditer(word):
        if part[0][0] not in "0123456789":
            count += _of_letters(part[0])
        elif count and part.start() == end + 1 and word[end] == ".":
            count += 1 + _of_digits(part[0])
        else:
            count += _of_number(part[0])
        end = part.end()
    return max(1, count)


def _of_letters(letters: str) -> int:
    groups = len(_VOWELS.findall(letters))
    if not groups:  # letters said one by one: mm, psi's like
        return len(letters) + 2 * letters.count("w")
    return max(1, groups - bool(_SILENT_END.search(letters)))


def _of_number(digits: str) -> int:
    if len(digits) > 6 or (digits.startswith("0") and len(digits) > 1):
        return _of_digits(digits)
    number = int(digits)
    thousands, rest = divmod(number, 1000)
    count = _under_thousand(thousands) + 2 if thousands else 0
    return count + (_under_thousand(rest) if rest or not thousands else 0)


def _under_thousand(number: int) -> int:
    hundreds, rest = divmod(number, 100)
    count = _UNDER_TWENTY[hundreds] + 2 if hundreds else 0
    if rest >= 20:
        return count + _TENS[rest // 10] + (_UNDER_TWENTY[rest % 10] if rest % 10 else 0)
    return count + (_UNDER_TWENTY[rest] if rest or not hundreds else 0)


def _of_digits(digits: str) -> int:
    return sum(_UNDER_TWENTY[int(digit)] for digit in digits)
