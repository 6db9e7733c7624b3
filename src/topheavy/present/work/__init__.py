"""The work of the day at the rack: views, words and a sketch of the bar."""
