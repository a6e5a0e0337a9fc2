"""The ground that every room stands on: paths, errors, the language, whole files, sign-in.

Knows nothing of wells. Imports nothing of ours from any other package.
"""
