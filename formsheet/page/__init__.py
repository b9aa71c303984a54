"""The play-along page of a lesson, and the page that lists all lessons."""
