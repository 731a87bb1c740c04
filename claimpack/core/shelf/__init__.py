"""Held parts on their shelf: steps with them, counts, and a part that is already held."""
