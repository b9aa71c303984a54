"""The tune in other formats: plain text, JSON, MusicXML."""
