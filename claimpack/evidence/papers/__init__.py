"""Papers: PDFs read within limits and cleaned of what nobody meant to send."""
