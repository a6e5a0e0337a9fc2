"""The menus of the window: one module a menu, each a table of actions."""
