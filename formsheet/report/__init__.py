"""What the commands print: tables for the teacher, data for other programs."""
