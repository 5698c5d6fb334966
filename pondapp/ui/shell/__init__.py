"""The frame around all screens: root, routes, session, theme, touch."""
