"""Closed formulas, one small module for each way in. Plain numbers in SI units go in and come out; nothing
here knows of runs or devices.

Every function says for what it holds. What it leaves out stands in `tables/formulas.yaml`, which the pages
print.
"""
