"""The tune as sound: one list of events, and from it MIDI and WAV."""
