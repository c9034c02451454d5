"""From a diagnosis to its fault isolation sheet."""
