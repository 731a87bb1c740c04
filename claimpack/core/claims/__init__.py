"""The claim as the shop wrote it: its record, keys and papers, and how two states of it differ."""
