"""Conversations: questions asked one after the other, and how their answers are read."""
