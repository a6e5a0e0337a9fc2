"""A process that has loaded the readers of documents and makes a copy of itself for each question.

A copy is a process of its own, with its own bounds, and runs the reader's `main` from beginning to
end; only the loading of modules is shared. `readers.py` asks it.
"""

import gc
import os
import select
import signal
import socket
import sys
from importlib import import_module

ENDS = 0  # the pipe that is closed when nobody can ask any more


def serve(listener):
    """Answer until nobody can ask any more; in a copy, come back with whom to answer."""
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody waits for the copies
    while True:
        ready, _, _ = select.select([listener, ENDS], [], [])
        if ENDS in ready:
            os._exit(0)
        line, _address = listener.accept()
        if os.fork() == 0:
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            return line
        line.close()


def attend(line):
    """Tell the number of the reader's process, and how it ended; in that process, come back."""
    module, (talk,), _flags, _address = socket.recv_fds(line, 1000, 1)
    pid = os.fork()
    if pid == 0:
        return module.decode(), talk
    os.close(talk)
    line.sendall(f"{pid}\n".encode())
    _pid, status = os.waitpid(pid, 0)
    line.sendall(f"{os.waitstatus_to_exitcode(status)}\n".encode())
    os._exit(0)


def main():
    listener = socket.socket(fileno=int(sys.argv[1]))
    for module in sys.argv[2:]:
        import_module(module)
    gc.freeze()
    line = serve(listener)
    listener.close()
    module, talk = attend(line)
    line.close()
    os.dup2(talk, 0)
    os.dup2(talk, 1)
    os.close(talk)
    code = 1
    try:
        import_module(module).main()
        sys.stdout.flush()
        code = 0
    finally:
        os._exit(code)


if __name__ == "__main__":
    main()
