"""What every command works with: the shop and its book, what is gathered, what is said."""
