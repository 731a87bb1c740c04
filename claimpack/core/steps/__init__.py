"""Steps taken with a claim, decided here before they are recorded: filing, answering, paying, taking over, ending."""
