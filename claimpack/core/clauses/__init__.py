"""What a coverage plan says, clause by clause: windows, when they begin, what is asked for, what is paid."""
