"""What a log says of training: work, bests on equal terms, trend, misses, and the next week."""
