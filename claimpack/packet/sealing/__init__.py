"""What proves a packet: the data and hashes it carries, and the check of them."""
