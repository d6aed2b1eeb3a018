"""Sheets of paper: what is printed, laid out as data and painted alike for preview, PDF, SVG and PNG."""
