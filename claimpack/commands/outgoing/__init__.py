"""What leaves the shop: on the printer, signed, in an envelope."""
