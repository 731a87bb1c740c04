"""Commands about the shop itself: its folder, its book, its plans."""
