"""The tune as sound: one list of events, from which MIDI and WAV are made."""
