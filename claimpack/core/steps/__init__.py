"""Events: what may happen to a claim and its parts, and the state they fold into."""
