"""Commands for claims that go another way than a plain repair: approval first, campaigns."""
