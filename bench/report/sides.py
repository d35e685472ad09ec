"""One side of a figure: something that is run and timed. A side gives (wall seconds, processor seconds, result), or
raises NotInstalled."""
import os
import statistics
import subprocess
import time


class NotInstalled(RuntimeError):
    pass


class Worker:
    """The C++ program that runs our side, and the peers that are libraries for C or C++. With `keep`, memory that a run
    gives back stays with the program, so that the system's handing it out is not measured."""

    def __init__(self, path, keep=True):
        environment = dict(os.environ)
        if keep:  # glibc's own words
            environment.update(MALLOC_TRIM_THRESHOLD_=str(2**30), MALLOC_MMAP_THRESHOLD_=str(2**30))
        self.process = subprocess.Popen([path], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
                                        env=environment)

    def side(self, *words):
        line = "\t".join(str(word) for word in words)

        def run():
            self.process.stdin.write(line + "\n")
            self.process.stdin.flush()
            answer = self.process.stdout.readline().rstrip("\n").split("\t")
            if answer[0] == "none":
                raise NotInstalled(words)
            if answer[0] != "ok":
                raise RuntimeError(f"{words}: {' '.join(answer) or 'the worker ended'}")
            return float(answer[1]), float(answer[2]), answer[3]

        return run


def python_side(function):
    """Times a call of a Python library, in this process."""

    def run():
        wall, processor = time.perf_counter(), time.process_time()
        result = function()
        return time.perf_counter() - wall, time.process_time() - processor, result

    return run


class Times:
    """What repeats of one side took: processor time, which a busy machine bends least, or the clock's for threads."""

    def __init__(self):
        self.wall, self.processor, self.result = [], [], None

    def add(self, measured):
        self.wall.append(measured[0])
        self.processor.append(measured[1])
        self.result = measured[2]

    def least(self, clock="processor"):
        return min(getattr(self, clock))

    def median(self, clock="processor"):
        return statistics.median(getattr(self, clock))


def in_turns(sides, repeats=9, seconds=60.0, at_least=0.0):
    """Runs all sides in turns; {name: Times}, without those that are not installed. Each is run at least three times,
    and then until `repeats` are done and `at_least` seconds have passed, or `seconds` have."""
    times = {name: Times() for name in sides}
    missing = set()
    start = time.perf_counter()
    for turn in range(1000):
        passed = time.perf_counter() - start
        if (turn >= repeats and passed >= at_least) or (turn >= min(3, repeats) and passed > seconds):
            break
        for name, side in sides.items():
            if name in missing:
                continue
            try:
                times[name].add(side())
            except NotInstalled:
                missing.add(name)
    return {name: found for name, found in times.items() if name not in missing}


def load():
    return os.getloadavg()[0]
