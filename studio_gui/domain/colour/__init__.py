"""Colour of dyed fibre: spectra, mixing, colour spaces, difference and swatches."""
