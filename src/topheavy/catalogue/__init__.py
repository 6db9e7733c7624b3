"""Published chain tables as data, each row with its source; and mass from calipers."""
