"""What is judged: every number, stated or assumed, with where it comes from; and the setup built of them."""
