"""The pages in a browser, and the same answers over HTTP: bound to this machine alone."""
