"""Every procedure performed on a simulated device: a model in, a trace of states out."""
