"""Audits: what an auditor would ask about, what was settled, samples drawn and what they tell."""
