"""The water path: what is on it, and what each run of pipe takes."""
