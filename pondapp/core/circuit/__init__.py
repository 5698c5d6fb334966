"""The circuit: which pump feeds what, and the least flow that is enough for everything."""
