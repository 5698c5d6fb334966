"""A waterfall: its flow, its width, its sheet of water."""
