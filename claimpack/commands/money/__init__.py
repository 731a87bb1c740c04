"""Commands that follow a claim from filing to its last payment."""
