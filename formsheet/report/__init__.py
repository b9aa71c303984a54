"""The output of the commands: tables for the teacher, data for other programs."""
