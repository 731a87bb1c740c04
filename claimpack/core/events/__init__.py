"""Events: what may happen to a claim and its parts, what may follow what, and the state they fold into."""
