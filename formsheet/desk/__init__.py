"""At the teacher's desk: a lesson to start from, and a preview that follows what is saved."""
