"""Wool drawn as fibre: maps made once for a place and a size, colours looked up for every frame."""
