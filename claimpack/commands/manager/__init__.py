"""The manager's commands: what is owed, due, held, doubtful."""
