"""What is drawn: the mount's geometry once, then writers for paper, cut files and screens."""
