"""A plan for the whole room, shown: board, station sheets, slips."""
