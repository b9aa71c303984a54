"""At the teacher's desk: a lesson to start from."""
