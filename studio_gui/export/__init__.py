"""Files made out of drawings and tables: PDF, SVG, PNG, CSV, JSON; no widgets."""
