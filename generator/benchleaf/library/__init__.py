"""What a knowledge base may use without an entry of its own: liquids, alloys, solids and screws, with cited values."""
