"""Records and verdicts -> the docs tree that mkdocs builds: pages, matrix, drawings, data files
and the offline list."""
