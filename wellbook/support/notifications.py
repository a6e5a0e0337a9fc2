"""A note on the desktop through the desktop's own service (Desktop Notifications 1.2, by D-Bus).

The service shows and keeps it; no icon and no window of ours is needed.
"""

import os
import sys

_NAME, _PATH = "org.freedesktop.Notifications", "/org/freedesktop/Notifications"
_PATIENCE = 5.0  # seconds for an answer
_USUAL_TIME = -1  # as long as the service shows notes


def notify(title: str, text: str) -> bool:
    """Show a note; returns whether a service took it."""
    if sys.platform in {"win32", "darwin"} or not os.environ.get("DBUS_SESSION_BUS_ADDRESS"):
        return False
    from jeepney import DBusAddress, MessageType, new_method_call
    from jeepney.io.blocking import open_dbus_connection

    service = DBusAddress(_PATH, bus_name=_NAME, interface=_NAME)
    hints = {"desktop-entry": ("s", "wellbook"), "category": ("s", "x-wellbook.due")}
    said: tuple[object, ...] = ("Wellbook", 0, "", title, _plain(text), [], hints, _USUAL_TIME)
    call = new_method_call(service, "Notify", "susssasa{sv}i", said)
    try:
        with open_dbus_connection(bus="SESSION") as connection:
            reply = connection.send_and_get_reply(call, timeout=_PATIENCE)
    except (OSError, ValueError, KeyError, EOFError, TimeoutError):
        return False
    return reply.header.message_type is MessageType.method_return


def _plain(text: str) -> str:
    """A text that a service with markup shows as it is."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
