"""Sentences from codes and typed parameters; numbers by locale; units; translation."""
