"""The room of the rule unanswered-symptom."""
