"""The first visit: look around, bring a gym, or begin one; and choosing among several."""
