"""What is wrong with a lesson: the data, its wording, and how it is shown."""
