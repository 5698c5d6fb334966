"""pondapp: size a home pond's filters, waterfall and pump, then prove the flow on site."""
