"""What follows from the model: facts for pages, with nothing formatted yet."""
