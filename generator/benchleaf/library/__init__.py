"""Names of the substances, alloys and solids that a knowledge base may use without an entry of its own."""
