"""Yarn as a picture: strands twisted round each other, and the map of what is solid."""
