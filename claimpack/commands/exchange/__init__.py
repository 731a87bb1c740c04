"""What comes into the book from elsewhere and goes out of it: claim folders, lists, ledgers, the journal."""
