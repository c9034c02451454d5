"""The room of the rule flammable-bath."""
