"""An invented busy shop to try the program in: its claims, what became of them, and their pictures."""
