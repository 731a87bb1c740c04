"""The inks everything is printed in, in hexadecimal digits of red, green and blue."""

# Packets are copied and printed in black: what matters is told apart by weight and words, not by ink alone.
INK = "#16191b"
QUIET = "#4b5358"
RULE = "#a9b2b6"
TINT = "#eef2f3"
ACCENT = "#1d5163"
WHITE = "#ffffff"

CHART_RULE = "#c3cacd"
BAND = "#d3dfe4"
