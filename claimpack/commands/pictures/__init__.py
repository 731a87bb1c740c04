"""Commands about pictures: put on a claim, sorted, received from a phone, watched for, drawn on a sheet."""
