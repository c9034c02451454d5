"""Which names a knowledge base gives, what each must mean, and what is said where it means nothing."""
