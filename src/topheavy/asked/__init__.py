"""Questions in a coach's words: what was typed or sent, read and made into what services take."""
