"""One kind of evidence, one file: what each tells of a record as typed and of what may have been meant."""
