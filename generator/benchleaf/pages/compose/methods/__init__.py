"""What the page of methods says: one small file for each family of computations, each with an example to redo."""
