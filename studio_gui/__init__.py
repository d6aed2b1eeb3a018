"""Roving Lay: plans hand-painted roving, from the lay on film to the spun yarn."""
