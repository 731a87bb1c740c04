"""The book kept whole: proved, backed up, moved, and what must go forgotten."""
