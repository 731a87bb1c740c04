"""The book: every claim, every change to it, and where its files are kept."""
