"""A packet proved against its own data: what was changed, added or hidden since it was sealed."""
