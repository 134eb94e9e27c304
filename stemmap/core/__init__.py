"""The figures of the trade: arrays in, arrays or one frozen result out; no tables, files, windows or log."""
