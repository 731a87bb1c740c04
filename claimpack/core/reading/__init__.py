"""What a plate, a meter or a receipt says, as it was read off a picture: proposed, and compared with the claim."""
