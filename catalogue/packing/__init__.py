"""What is sent to a call, made from the records: which files, which of them lack, and the archive they leave in.

Beside ``making`` the one place, below views and commands, where the two arms meet.
"""
