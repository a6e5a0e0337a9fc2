"""What units, pump and wellhead need, and what water costs: worked out from the record.

Takes values of `book` and reference data of `water`, gives frozen values; opens nothing.
"""
