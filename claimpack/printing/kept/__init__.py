"""What makes a printed file fit to be kept and read aloud: its structure, its colours, what it says of itself."""
