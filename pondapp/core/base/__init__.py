"""What every part of the app may use of the core: messages, errors, working, constants."""
