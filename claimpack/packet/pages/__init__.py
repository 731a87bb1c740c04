"""The packet's pages: the cover and every section behind it."""
