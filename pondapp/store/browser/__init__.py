"""What only a browser offers: its storage, its files, its photos, and the page."""
