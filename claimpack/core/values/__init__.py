"""Values: money, days, periods, clock times, words and sentences."""
