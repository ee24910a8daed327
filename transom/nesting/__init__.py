"""Blanks on sheets, halves and offcuts: where each is cut, by cuts that a saw can make, and what is left."""
