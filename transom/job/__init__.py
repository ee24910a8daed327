"""What the user states: read, validated once, written."""
