"""What the letters, colours, patterns and signs of a board or a panel mean."""
