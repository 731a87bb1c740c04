"""The book's tables: the schema, its migrations, its rows and the engines under them."""
