"""The calculation core: pure functions in SI floats, standard library only.

Nothing here knows a screen, a file, a clock or a unit other than SI. Every function states what
it takes and gives, the range it holds in and the source it comes from.
"""
