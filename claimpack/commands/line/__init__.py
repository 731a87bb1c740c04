"""The command line: what commands declare of what they take, and what was typed, read and completed by it."""
