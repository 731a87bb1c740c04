"""What follows filing: the dates that terms give, what is pending, what to do next, whom to ask again."""
