"""What a claim tells, record by record: the unit, its days, what failed, what is asked for, what shows it."""
