"""The print room: inks, papers, type, text made to fit, tables and signs, for packets, tags and reports alike."""
