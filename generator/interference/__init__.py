"""What else gets into a run: hum, mains and radio from closed formulas with stated range, and what helps how
much.
"""
