"""Pictures and papers: read from the shop, made safe and small for the packet."""
