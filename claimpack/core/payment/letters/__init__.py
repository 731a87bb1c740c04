"""Letters to a maker, worded: asking for an approval, an answer or a payment, and contesting what it did."""
