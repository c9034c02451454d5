"""From the model and its facts to views: every number becomes text here, and nothing is decided after."""
