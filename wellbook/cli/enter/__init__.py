"""The command `enter`: what the window can enter beside the tests of a lab."""
