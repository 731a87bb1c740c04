"""Editing a claim: its keys as a user names them, what differs between two states, two states merged."""
