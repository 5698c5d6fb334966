"""Help, rules, sources, licences, settings."""
