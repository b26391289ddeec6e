"""Speech as tokens: spoken numbers, units, the trade's vocabulary, utterances, misheard words."""
