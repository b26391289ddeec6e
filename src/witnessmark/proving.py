"""The proof of many projects, on as many cores as are free: each in a process of its own, told in the order asked for."""

import gc
import os
import signal
import threading
from collections.abc import Generator, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

from witnessmark.errors import InputError, told
from witnessmark.progress import working

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

    from witnessmark.examination import Examination
    from witnessmark.proof.model import Finding

NO_TABLE = "repair.toml key specs: no table is named, so nothing said is compared with a manual"
UNUSED_UNITS = "repair.toml key units: it changes nothing, each value is printed in the manual's own unit first"


@dataclass(frozen=True, slots=True)
class Proved:
    """What the proof of one project tells. folder: as asked for. notes, stale, left_out: one line each.

    held: whether a hold is open. problem, code: the error, and the exit code that goes with it, where the project could not be examined, else None
    and 0.
    """

    folder: Path
    title: str = ""
    findings: tuple["Finding", ...] = ()
    held: bool = False
    notes: tuple[str, ...] = ()
    stale: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    problem: str | None = None
    code: int = 0


def prove(folder: Path) -> Proved:
    """Examine one project. What is wrong with it is an answer too: nothing is raised but an interruption."""
    try:
        from witnessmark.examination import examine
        from witnessmark.publication.findings import has_open_hold, left_out, stale_text

        examined = examine(folder)
        stale = tuple(f"fits nothing any more: {stale_text(decision)}" for decision in examined.stale)
        findings = examined.findings
        lost = left_out(examined.project.captions.name, examined.reading.speech.transcript)
        title, held = examined.project.title, has_open_hold(findings)
        return Proved(folder, title, findings, held, notes_on(examined), stale, lost)
    except Exception as error:
        problem, code = told(error)
        return Proved(folder, problem=problem, code=code)


def notes_on(examination: "Examination") -> tuple[str, ...]:
    """What was odd about the settings, the captions and the tables, a line each."""
    project = examination.project
    captions = project.captions.name
    settings = [UNUSED_UNITS] * bool(project.units) + [NO_TABLE] * (not project.specs)
    odd = (f"{captions} line {note.line}: {note.message}" for note in examination.reading.speech.transcript.notes)
    return (*settings, *odd, *examination.table.notes)


def prove_all(folders: Sequence[Path], jobs: int) -> Generator[Proved, None, None]:
    """Examine projects on at most `jobs` processes; the answers come in the order of folders, each as soon as it can.

    One project, or one job, needs no process but this one. Whatever ends the iteration ends the processes too.
    """
    jobs = min(jobs, len(folders))
    if jobs <= 1:
        for done, folder in enumerate(folders):
            with working(_doing(folder, done, len(folders))):
                answer = prove(folder)
            yield answer
        return
    with _pool(jobs) as pool, _interrupts() as heard:
        with _uninterrupted():
            futures = [pool.submit(prove, folder) for folder in folders]
        for done, (folder, future) in enumerate(zip(folders, futures, strict=True)):
            with working(_doing(folder, done, len(folders))):
                answer = _answer(folder, future)
            if heard:
                raise KeyboardInterrupt
            yield answer


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _doing(folder: Path, done: int, total: int) -> str:
    return f"reading {folder}" if total == 1 else f"reading {folder} ({done} of {total} done)"


def _answer(folder: Path, future: "Future[Proved]") -> Proved:
    from concurrent.futures.process import BrokenProcessPool

    try:
        return future.result()
    except BrokenProcessPool:
        ended = InputError(str(folder), "a process was ended from outside, perhaps for want of memory", "use --jobs 1")
        problem, code = told(ended)
        return Proved(folder, problem=problem, code=code)


@contextmanager
def _pool(jobs: int) -> Iterator["ProcessPoolExecutor"]:
    """Processes started afresh, so that they are the same on every system, and none of them left at the end."""
    # Most often one project is asked for, and these modules take long to load.
    import multiprocessing
    from concurrent.futures import ProcessPoolExecutor

    pool = ProcessPoolExecutor(jobs, multiprocessing.get_context("spawn"), _begin, gc.get_threshold())
    try:
        yield pool
    except BaseException:
        children = multiprocessing.active_children()
        pool.shutdown(wait=False, cancel_futures=True)
        for child in children:
            child.terminate()
        for child in children:
            child.join()
        raise
    pool.shutdown()


@contextmanager
def _interrupts() -> Iterator[list[int]]:
    """The Ctrl-Cs heard: one that falls into a callback, where Python swallows what it raises, is not lost so."""
    heard: list[int] = []
    if threading.current_thread() is not threading.main_thread():
        yield heard
        return

    def note(number: int, _frame: FrameType | None) -> None:
        heard.append(number)
        raise KeyboardInterrupt

    before = signal.signal(signal.SIGINT, note)
    try:
        yield heard
    finally:
        signal.signal(signal.SIGINT, before or signal.SIG_DFL)


@contextmanager
def _uninterrupted() -> Iterator[None]:
    """Processes that are started meanwhile never hear Ctrl-C: this one does, and ends them without a word of theirs."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin(*garbage: int) -> None:
    """What a process does first: collect as the one that asked for it, and end when that has gone, however it went."""
    gc.set_threshold(*garbage)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    import multiprocessing

    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
