"""Files and lines: what can be wrong before a line is understood."""

from __future__ import annotations

from formsheet.problems.kinds.words import NEAR, USAGE, Words, says

LINES: dict[str, Words] = {
    # Files
    "file-missing": says("there is no file `{file}`", "check its name, and the folder it is in"),
    "file-too-long": says(
        "the licks of this file come to more than {most} marks, repeats written out",
        "put some of them into a file of their own",
    ),
    "file-too-large": says(
        "`{file}` is larger than any lesson: {most} bytes at most", "check that it is a lesson"
    ),
    "file-unreadable": says("`{file}` cannot be read: {reason}", "check who may read this file"),
    "file-not-utf8": says(
        "`{file}` is not UTF-8 text from here on",
        "save it again from your editor with the encoding UTF-8",
    ),
    "file-not-plain": says(
        "`{file}` is a word processor's file, not plain text",
        "save it as plain text (.txt, UTF-8), and end its name in `.lesson`",
    ),
    "problems-left": says(
        "the rest is not told here: {count} more", "mend what is told, then check again"
    ),
    # Lines
    "word-unknown": says(
        "`{found}` begins no line of a lesson, and is no mark of music",
        NEAR,
        "{meant}",
        "a text is one line long: go on with `{text_line}` on this line, or join the two",
        "if `{plain}` begins a remark of your own, write `#` before it",
    ),
    "word-unexpected": says(
        "`{found}` cannot stand here; expected {wanted}",
        "write `{numerals}`: that is what it is in {key}, the key of this lesson",
        USAGE,
    ),
    "line-unfinished": says("the line ends too soon after `{last}`; expected {wanted}", USAGE),
    "text-cut": says(
        "from `{found}` on this is a comment and is not printed",
        "put the whole text in quotes to print it",
    ),
    "name-missing": says("a {keyword} needs a name, one word before {before}", "write `{guess}`"),
    "comment-joined": says(
        "`{found}`: a `#` begins a remark of your own only at the start of a word",
        "write `{guess}`, with a space before the `#`",
        "write `{plain}`",
    ),
    "quote-open": says(
        "the quote that opens here is not closed on this line",
        "for a bend of a whole step, write two ticks: `{bend}`",
        'put a `"` at the end of the quoted words, or take this one out',
    ),
    "brace-open": says(
        "the brace that opens here is not closed; a technique stands in braces",
        "write `{guess}`",
    ),
    "line-misplaced": says(
        "`{found}` belongs under a `{owner}` line, and there is none above it",
        "move this line below the `{owner}` line that it belongs to",
    ),
    "chords-misplaced": says(
        "chords stand here, but no `form` line is above them",
        "write `form` and a name in quotes on the line before",
    ),
    "music-misplaced": says(
        "music stands here, but no `lick`, `turnaround` or `rhythm` line is above it",
        "write a first line for it, such as `lick porch on I`",
    ),
    "fact-late": says(
        "`{fact}` stands after the first lick",
        "move this line to the top, before the first lick",
    ),
    "fact-twice": says("`{fact}` is given twice", "keep one of the two lines"),
}
