"""Other ways to solve the same problem, to compare speed and answers with."""
