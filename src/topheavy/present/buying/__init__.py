"""What to buy, shown."""
