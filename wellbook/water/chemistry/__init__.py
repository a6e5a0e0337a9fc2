"""Several parameters of one sample together: ions, their balance, indices of corrosion."""
