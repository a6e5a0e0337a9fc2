"""Trends beside a yearly cycle and beside dependence of successive tests."""
