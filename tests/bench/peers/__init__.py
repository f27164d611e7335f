"""The fleet's vertical ascent solved by general-purpose programs, each from the formulas alone.

None of them reads a table of the library: air, gravity and friction are evaluated from their laws.
What every program would prepare once (splines of the drag columns, time of lift-off) is prepared
outside of the clock.
"""
