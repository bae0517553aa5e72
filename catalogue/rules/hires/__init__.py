"""Hire of performance material: what is out, what is due, what is missing, what it costs."""
