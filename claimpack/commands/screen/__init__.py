"""What a screen shows of claims: lists in columns, an assessment told, a change told."""
