"""Faults put into the engine on purpose, to see whether the tests notice."""
