"""What a picture says: codes, letters, the tag or the plate in it."""
