"""What people type and read: text to SI floats and back; the only importer of pint."""
