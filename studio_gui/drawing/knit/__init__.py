"""The picture of a knitted swatch: maps of its stitches, made once, and their colours, looked up."""
