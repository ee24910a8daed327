"""A derivation and the ledger for people: terminal, Markdown, LaTeX, JSON."""
