"""Claims settled together: a statement of the maker's matched and booked, and the journal of every movement."""
