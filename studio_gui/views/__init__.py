"""What the user sees and touches: canvas, gestures, panes, dialogs and the main window."""
