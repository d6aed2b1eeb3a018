"""The open plan: undo, preferences, recent files, item models, background work; no widgets."""
