"""Lists, letters and slips for people: drawn from what they are handed, deciding nothing."""
