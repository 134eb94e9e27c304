"""The command line: options in, one task, its result printed or written."""
