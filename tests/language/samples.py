"""Lessons with every construct of the language, for tests that need one."""

from __future__ import annotations

#: The sample of the language's own description. Its notes were not chosen to fit.
KETTLE_CREEK = """\
title     Kettle Creek Shuffle
teacher   The Mill Lane Harp Class
harp      C
position  2nd
form      12-bar standard
tempo     104
learn     60
feel      swing
say       A walking groove for two breaths a bar. Tap your foot on all four beats.

rhythm trot   q x e x x - x q x      # one x for each note

lick porch "Front porch" on I in trot
  4d 3d 34d 4d' 2d
  tip Let the 2 draw ring; it is home.

lick creek on IV
  q 4b e 5b 4b q. 3d' e 2d''

lick gate on V
  q 1d e 4d"ka" 4d' straight s 4d 5d 4d 4d' swing e3 2d 2d'' 1d

turnaround home on I | V
  q 2d e3 2d 3d' 3d q 4d 4d' |
  q 4d [e 1d -]x2 q -

play
  every I      porch
  every IV     creek
  bar 9        gate
  bars 11-12   home
"""

#: The own form of the language's description.
LATE_TRAM = """\
form "Late tram"
  | I7 | IV7 | I7 | I7 |
  | IV7 | IV7 | I7 | VI7 |
  | ii7 | V7 | I7 IV7 | I7 V7 |
"""

#: A lesson with whatever the first sample has not: a good one, without a finding of any kind.
LATE_TRAM_LESSON = """\
# An own form, an own tuning, pick-ups, holds, alternatives, several choruses.
title "The Late Tram # 9"
rights Copy it for your own students
date May 2026
harp low F
tuning ferry town
  blow  C E G C E G C E G C
  draw  D G B D F# A B D F A
position 2nd
meter 4/4
tempo 92
count-in 2
feel swing 3:2
form "Late tram"
  | I7 | IV7 | I7 | I7 |
  | IV7 | IV7 | I7 | VI7 |
  | ii7 | V7 | I7 IV7 | I7 V7 |

rhythm step
  q x - [x]x2

lick stair "Up the stair" on I in step
  2d{shake} 3d 4d"hey"
lick both on I, IV
  pickup e 2d 1d
  h 4b!{wah}"ta" q = -
  tip Hold it until three.
lick half on I IV | I V
  h 2d 1b | q. 2d = q -
lick odd on VI7 | ii7
  h. 2b q - | w 3d'

play "First time" x2
  every I stair
  every IV rest
  bars 8-9 odd
  bar 10 rest
  bars 11-12 half
  last time bars 1-4 both x2, stair, rest
play
  bars 1-7 rest
  bars 8-12 odd, rest x1, half
"""
