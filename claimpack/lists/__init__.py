"""Lists in spreadsheets and statements: what others hand in, and what is handed out."""
