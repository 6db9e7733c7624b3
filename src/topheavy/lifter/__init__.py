"""The lifter: strength at each height, one-repetition maximum, and how the bar moves."""
