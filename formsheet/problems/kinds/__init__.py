"""Every kind of problem and its words, a module for each part of a lesson."""
