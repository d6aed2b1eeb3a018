"""Pictures made with a painter, shared by the canvas and the prints; no widgets."""
