"""What the commands give back, as plain values; `document` turns one into the JSON that --json prints."""
