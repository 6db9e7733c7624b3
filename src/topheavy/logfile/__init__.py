"""The log of sets as a file: CSV read with a mapping; CSV, JSON lines and Parquet written."""
