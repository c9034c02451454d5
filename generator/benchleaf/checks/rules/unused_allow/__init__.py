"""The room of the rule unused-allow."""
