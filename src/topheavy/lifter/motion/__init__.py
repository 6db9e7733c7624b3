"""What carries a rep through: its inputs laid out, the march up and down, the account of it."""
