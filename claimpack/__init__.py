"""Warranty claims for a repair shop: an explained verdict, a priced claim, a packet and a tag."""

__version__ = "0.1.0"
