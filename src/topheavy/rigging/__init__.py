"""From a target to the best rig the stock can build: exact search and its explanation."""
