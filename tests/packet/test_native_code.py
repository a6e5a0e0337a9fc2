"""pdfium is native code that no two threads may be in; packets are written from several."""

import subprocess
import sys

TOGETHER = """
import sys, threading
from pathlib import Path
from wellbook.pdf import native

def read():
    for _unused in range(40):
        with native.opened(Path(sys.argv[1]).read_bytes()) as document:
            for page in document:
                page.get_textpage().get_text_bounded()

threads = [threading.Thread(target=read) for _unused in range(3)]
for thread in threads:
    thread.start()
for thread in threads:
    thread.join()
"""


def test_several_threads_read_pages_at_a_time_and_the_process_lives(small):
    done = subprocess.run([sys.executable, "-c", TOGETHER, small], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
