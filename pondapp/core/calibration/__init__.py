"""What readings say of a circuit: fitted unknowns, how sure they are, what they predict."""
