"""Two states of a knowledge base -> what the change between them did to safety."""
