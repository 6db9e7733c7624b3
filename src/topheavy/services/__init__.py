"""One function for each thing a coach asks for; pure, from values to answers."""
