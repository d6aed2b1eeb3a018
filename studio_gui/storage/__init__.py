"""Plans as files: strict reading and atomic saving; no Qt."""
