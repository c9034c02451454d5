"""The page of one procedure to work by."""
