"""Many lifters on shared stock: who lifts where, with whom, on what."""
