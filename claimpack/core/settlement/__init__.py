"""Claims settled together: a statement of the maker's matched, the letter about all that is late, the journal."""
