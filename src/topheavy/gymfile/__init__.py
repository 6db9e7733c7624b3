"""The gym as a TOML file: read, checked and explained."""
