"""Old tab: forty snippets in eight shorthands, and how a player reads each of them."""
