"""Checks: what may go wrong on the bench, as code, severity, parameters and mends."""
