"""How fast the search is, beside plain nested loops and a general solver on the same problem.

`python -m benchmarks` prints the tables; `--write` puts them into the reference too.
"""
