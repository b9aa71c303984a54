"""From a recording of a harp to notes, and from notes to a lick; nothing here prints."""
