"""What was said: amounts, what each measures, how it is meant, and which item it belongs to."""
