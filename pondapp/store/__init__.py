"""Designs and measurements on this device."""
