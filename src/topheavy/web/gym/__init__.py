"""The gym kept in a browser: forms over the tables of a gym file, every change a new version."""
