"""What the manager's report says, worked out from numbers."""
