"""The catalogue's own files, spoilt on purpose, to see whether lint takes whatever it is given."""
