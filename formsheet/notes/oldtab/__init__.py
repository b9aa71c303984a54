"""Tab in the shorthands that players use in messages and on paper."""
