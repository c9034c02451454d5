"""The room of the rule autoignition."""
