"""Pure edits: each takes a plan and returns a new one, or refuses with a reason and changes nothing."""
