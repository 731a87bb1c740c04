"""How a database is spoken to, whichever it is: connections, statements, what keeps a file from being written."""
