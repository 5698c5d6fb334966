"""What is saved, imported and exported: pydantic models with a schema version."""
