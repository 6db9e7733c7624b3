"""What the store keeps: gyms, accounts, the log and files brought in."""
