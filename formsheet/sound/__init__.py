"""The tune as sound: one list of events, from which MIDI, MP3 and WAV are made."""
