"""The trade's arithmetic: frozen values in, frozen values out; no Qt, no files."""
