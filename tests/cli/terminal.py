# SPDX-License-Identifier: GPL-3.0-or-later
"""What a program shows on a terminal."""

import fcntl
import os
import pty
import struct
import subprocess
import termios
import threading

END = b"\0"  # no program prints it


def shown_on_terminal(call, stream, columns=0, **more):
    """(what the terminal got as `stream`, "stdout" or "stderr"; the process, ended)

    This side keeps the far end open, and marks there that the process has ended, until all is read:
    what waits on a terminal that its last program has closed may be lost.
    """
    near, far = pty.openpty()
    fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    process = subprocess.Popen(call, stdin=subprocess.DEVNULL, **more, **{stream: far})
    ended = threading.Thread(target=lambda: (process.wait(), os.write(far, END)))
    ended.start()
    shown = b""
    while not shown.endswith(END):
        shown += os.read(near, 65536)
    ended.join()
    os.close(far)
    os.close(near)
    return shown.removesuffix(END).decode().replace("\r\n", "\n"), process
