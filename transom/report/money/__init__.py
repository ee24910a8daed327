"""An estimate for people: the estimator's screen, the customer's quote, the buy list, and the books' CSV and JSON."""
