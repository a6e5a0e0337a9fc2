"""Work that takes longer than a glance, done on another thread.

The caller owns the `Job`. The thread speaks through an object of its own, which lives until it has
said its last word: so the job, and the dialog that it belongs to, may go at any moment. Cancelling
is asking: the work looks between its steps whether it was asked to stop.
"""

from collections.abc import Callable
from contextvars import copy_context
from functools import partial
from threading import Event, Thread
from typing import TypeVar

from PySide6.QtCore import QCoreApplication, QEventLoop, QObject, QThreadPool, QTimer, Signal

from wellbook.support.crash_log import write_trace
from wellbook.support.errors import Fault
from wellbook.support.translation import _

Tell = Callable[[int, int, str], None]
Answer = TypeVar("Answer")
_AT_ONCE = 0.03  # seconds; what is done by then is over before anybody sees it
_LATER = 30  # milliseconds


class Cancelled(Exception):
    """The person asked to stop."""


class _Waker(QObject):
    ended = Signal()


_loops: list[QEventLoop] = []  # that wait for work done apart


def apart(work: Callable[[], Answer]) -> Answer:
    """Do something on another thread while this one goes on painting, and return its answer.

    What is typed and clicked meanwhile waits, and so do the answers of other work: they may need
    what this work has. Timers do not.

    Raises:
        Exception: What the work raised.
    """
    answers: list[Answer] = []
    errors: list[BaseException] = []
    ended, waker, loop = Event(), _Waker(), QEventLoop()
    waker.ended.connect(loop.quit)

    def run() -> None:
        try:
            answers.append(work())
        except BaseException as error:  # noqa: BLE001  raised anew where it is waited for
            errors.append(error)
        finally:
            ended.set()
            waker.ended.emit()

    thread = Thread(target=copy_context().run, args=(run,))
    thread.start()
    if not ended.wait(_AT_ONCE):
        _loops.append(loop)
        loop.exec(QEventLoop.ProcessEventsFlag.ExcludeUserInputEvents)
        _loops.remove(loop)
    thread.join()
    if errors:
        raise errors[0]
    return answers[0]


class _Voice(QObject):
    """What a thread speaks through. The program owns it; no dialog takes it along when it goes."""

    ended = Signal(str, object)
    told = Signal(int, int, str)

    def __init__(self) -> None:
        super().__init__(QCoreApplication.instance())
        self.is_stopped = False

    def run(self, work: Callable[[Tell], object]) -> None:
        """Do the work, and say how it ended."""
        try:
            result = work(self._tell)
        except Cancelled:
            self.ended.emit("cancelled", None)
        except Fault as fault:
            self.ended.emit("failed", str(fault))
        except Exception as error:  # noqa: BLE001  the last place of this thread
            self.ended.emit("failed", unexpected(error))
        else:
            self.ended.emit("done", result)
        self.deleteLater()

    def _tell(self, done: int, total: int, words: str) -> None:
        if self.is_stopped:
            raise Cancelled
        self.told.emit(done, total, words)


class Job(QObject):
    """One piece of work on another thread.

    Signals:
        done: It came to an end; carries what the work returned.
        failed: It did not; carries the sentence to show.
        cancelled: It stopped because it was asked to.
        told: Progress: steps done, steps in all (0: not known), what is being done.
    """

    done = Signal(object)
    failed = Signal(str)
    cancelled = Signal()
    told = Signal(int, int, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._voice: _Voice | None = None

    @property
    def running(self) -> bool:
        """Whether work is under way."""
        return self._voice is not None

    def start(self, work: Callable[[Tell], object]) -> None:
        """Run `work(tell)` on a thread; `tell` raises `Cancelled` once stopping was asked for."""
        voice = self._voice = _Voice()
        voice.ended.connect(self._on_ended)
        voice.told.connect(self.told)
        QThreadPool.globalInstance().start(partial(voice.run, work))

    def cancel(self) -> None:
        """Ask the work to stop at its next step."""
        if self._voice is not None:
            self._voice.is_stopped = True

    def _on_ended(self, how: str, what: object) -> None:
        """Tell the end on the thread of the window, in one go, when nothing is done apart."""
        if _loops:
            QTimer.singleShot(_LATER, self, partial(self._on_ended, how, what))
            return
        self._voice = None
        if how == "done":
            self.done.emit(what)
        elif how == "failed":
            self.failed.emit(what)
        else:
            self.cancelled.emit()


class Loader(QObject):
    """Asks on another thread, and heeds the answer to the latest question only.

    Signals:
        failed: The latest question has no answer; carries the sentence that says why.
        told: How far it is: steps done, steps in all (0: not known), what is being done.

    Attributes:
        is_stopped: Whether nothing is asked any more.
    """

    failed = Signal(str)
    told = Signal(int, int, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._job = Job(self)
        self.is_stopped = False

    @property
    def running(self) -> bool:
        """Whether an answer is awaited."""
        return self._job.running

    def ask(self, work: Callable[[Tell], Answer], then: Callable[[Answer], object]) -> None:
        """Run `work(tell)` on a thread, `then(answer)` on this one unless something else is asked.

        What was asked before is stopped at its next step, and its answer is not heeded.
        """
        if self.is_stopped:
            return
        self.drop()
        job = self._job = Job(self)
        job.done.connect(partial(self._on_done, job, then))
        job.failed.connect(partial(self._on_failed, job))
        job.told.connect(partial(self._on_told, job))
        for ended in (job.done, job.failed, job.cancelled):
            ended.connect(job.deleteLater)
        job.start(work)

    def drop(self) -> None:
        """Ask the work under way to stop at its next step, and heed no answer of it."""
        self._job.cancel()
        self._job = Job(self)

    def stop(self) -> None:
        """Heed no late answer, and ask nothing any more."""
        self.drop()
        self.is_stopped = True

    def _on_done(self, job: Job, then: Callable[[Answer], object], answer: Answer) -> None:
        if job is self._job:
            then(answer)

    def _on_failed(self, job: Job, sentence: str) -> None:
        if job is self._job:
            self.failed.emit(sentence)

    def _on_told(self, job: Job, done: int, total: int, words: str) -> None:
        if job is self._job:
            self.told.emit(done, total, words)


def unexpected(error: BaseException) -> str:
    """The sentence for what should not have happened; how it came about goes into a file."""
    path = write_trace(error)
    if path is None:
        return _(
            "Something went wrong that Wellbook did not expect. Nothing was changed; the details "
            "could not be written into its folder ({error})."
        ).format(error=type(error).__name__)
    return _(
        "Something went wrong that Wellbook did not expect. Nothing was changed; {path} holds the "
        "details, for whoever mends it."
    ).format(path=path)
