"""The tables of the book: the schema, its migrations, and its rows."""
