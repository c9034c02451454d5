"""What happens at the bench, as numbers: heat, drying, vapour, torque. Pure functions, each with source and range."""
