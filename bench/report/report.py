"""All figures of speed and quality beside general-purpose peers, as one table.

    OMP_NUM_THREADS=1 python3 report.py --worker PROGRAM --data TESTS_DATA [--native PROGRAM] [--rows WORD,...]
                                        [--repeats 9] [--markdown FILE]
                                        [--readme FILE] [--record FILE]

The target bench_report builds the worker and calls this. Both sides of a figure run in turns; "ours" and "beside it"
are the least and the median of the repeats, in processor time. Where the median is over 1.15 times the least on either
side, the line says noisy; within 5 % of a limit it says so. "native" is the ratio with ours built by -march=native.
"""
import argparse
import csv
import glob
import importlib.util
import os
import platform
import statistics
import sys
import tempfile

from sides import Worker, in_turns, load
import sides
from table import Line, as_markdown, as_text, count_line, missing, timed_line, value_line

try:
    import peers_in_python as python_peers
except ImportError as fault:
    python_peers = None
    print(f"Python peers are left out: {fault}", file=sys.stderr)

PICTURES = {"skimage": ["data/astronaut.png", "data/chelsea.png", "data/coffee.png", "data/hubble_deep_field.jpg",
                        "data/retina.jpg", "data/rocket.jpg"],
            "sklearn": ["datasets/images/china.jpg", "datasets/images/flower.jpg"]}


def found_pictures():
    """{name: path} of the eight photos, where their packages are installed."""
    found = {}
    for package, paths in PICTURES.items():
        spec = importlib.util.find_spec(package)
        for path in paths:
            whole = os.path.join(os.path.dirname(spec.origin), path) if spec and spec.origin else ""
            if os.path.exists(whole):
                found[os.path.basename(path).split(".")[0].split("_")[0]] = whole
    return found


class Report:
    def __init__(self, options):
        self.options = options
        self.worker = Worker(options.worker)
        self.native = Worker(options.native) if options.native else None
        self.plain = Worker(options.worker, keep=False)
        self.plain_native = Worker(options.native, keep=False) if options.native else None
        self.lines = []

    def add(self, line):
        self.lines.append(line)
        print(f"  {line.figure} | {line.peer} | {line.ratio} ({line.limit}) {line.verdict}", file=sys.stderr, flush=True)

    def turns(self, wanted, seconds=60.0, at_least=0.0):
        return in_turns(wanted, self.options.repeats, seconds, at_least)

    def compare(self, figure, peer, limit, ours, theirs, clock="processor", keep=True):
        """A line of times; `ours` are words for the worker, `theirs` words or a side. Once more where it was noisy."""
        worker, native = (self.worker, self.native) if keep else (self.plain, self.plain_native)
        wanted = {"ours": worker.side(*ours), "theirs": theirs if callable(theirs) else worker.side(*theirs)}
        if native:
            wanted["native"] = native.side(*ours)
        for _ in range(3):
            times = self.turns(wanted, at_least=2.0)  # what takes a millisecond is repeated a few hundred times
            if "ours" not in times or "theirs" not in times:
                return self.add(missing(figure, peer, limit))
            line = timed_line(figure, peer, limit, times["ours"], times["theirs"], load(), times.get("native"), clock)
            if not line.verdict.startswith("noisy"):
                break
        return self.add(line)


def fit_sides(report, path, colours, points, slow=True):
    """Every fitter on one picture: ours, then peers."""
    names = ["best", "quick", "median cut", "mean cut", "best-fit cut", "OpenCV kmeans", "OpenCV kmeans ++", "libimagequant"]
    wanted = {name: report.worker.side("fit", name, path, colours) for name in names}
    if report.native:
        wanted.update({name + " native": report.native.side("fit", name, path, colours) for name in ("best", "quick")})
    if slow:
        wanted["libimagequant slowest"] = report.worker.side("fit", "libimagequant slowest", path, colours)
        wanted.update(python_peers.scikit_learn(points, colours))
    wanted.update(python_peers.pillow(path, colours))
    return wanted


OURS = ("best", "quick", "median cut", "mean cut", "best-fit cut", "best native", "quick native")


def fits(report):
    """On the recorded cells."""
    with open(os.path.join(report.options.data, "kmeans_reference.csv")) as file:
        reference = {(row["picture"], int(row["colours"])):
                     min(float(row["best_of_200"]), float(row["best_of_200_run_to_the_end"]))
                     for row in csv.DictReader(file)}
    pictures = sorted(glob.glob(os.path.join(report.options.data, "cells", "*.ppm")))
    behind, cases, recorded = [], 0, []
    for colours in (8, 20, 64):
        errors, times = {}, {}
        for path in pictures:
            picture = os.path.basename(path)[:-4]
            pixels = python_peers.pixels_of(path)
            points = python_peers.oklab.from_codes(pixels)
            times[picture] = report.turns(fit_sides(report, path, colours, points))
            errors[picture] = {name: python_peers.error_of(points, python_peers.codes_of(found.result))
                               for name, found in times[picture].items()}
            palette = python_peers.magick(path, colours)
            if palette is not None:
                errors[picture]["ImageMagick"] = python_peers.error_of(points, palette)
            recorded += [[picture, colours, name, repr(error)] for name, error in errors[picture].items()
                         if name not in OURS]
            for name, found in times[picture].items():
                if name in OURS:
                    continue
                cases += 1
                for preset in ("best", "quick"):
                    ours = times[picture][preset]
                    if found.least() < ours.least() and errors[picture][name] < errors[picture][preset]:
                        behind.append(f"{name} before {preset} on {picture}, k = {colours}")

        limits = {"best": 1.0 if colours == 64 else 1.005, "quick": 1.03}
        for preset, limit in limits.items():
            known = [picture for picture in errors if (picture, colours) in reference]
            picture = max(known, key=lambda p: errors[p][preset] / reference[p, colours])
            report.add(value_line(f"{preset}, error, k = {colours}, worst of {len(known)} ({picture})",
                                  "scikit-learn, best of 200 starts", f"<= {limit:g}", errors[picture][preset],
                                  reference[picture, colours]))
        rivals = [(errors[p]["best"] / error, p, name) for p in errors for name, error in errors[p].items()
                  if name not in OURS[:2] + OURS[5:]]
        _, picture, name = max(rivals)
        report.add(value_line(f"best, error, k = {colours}, worst of {len(rivals)} pairs ({picture})",
                              f"the nearest peer, {name}", "<= 1", errors[picture]["best"], errors[picture][name]))
        for preset, peer, limit in (("best", "scikit-learn KMeans", "<= 0.3333"), ("quick", "OpenCV kmeans", "<= 0.25")):
            if any(peer not in found for found in times.values()):
                report.add(missing(f"{preset}, time, k = {colours}", peer, limit))
                continue
            picture = max(times, key=lambda p: times[p][preset].least() / times[p][peer].least())
            report.add(timed_line(f"{preset}, time, k = {colours}, worst of {len(times)} ({picture})", peer, limit,
                                  times[picture][preset], times[picture][peer], load(),
                                  times[picture].get(preset + " native")))
    report.add(count_line("peers both faster and better than a preset", "all peers, pictures and k", len(behind), cases))
    if report.options.record:
        with open(report.options.record, "w", newline="") as file:
            table = csv.writer(file, lineterminator="\n")
            table.writerows([["picture", "colours", "peer", "mse_oklab"]] + sorted(recorded))
    for case in behind:
        print("    " + case, file=sys.stderr)


def full_pictures(report):
    """Every pixel of whole pictures."""
    figure = "quick, whole pictures, k = 20"
    pictures = found_pictures()
    if not pictures:
        report.add(missing(figure + ", time", "libimagequant", "<= 1"))
        report.add(missing(figure + ", error", "all peers", "<= 1"))
        return
    rows, pairs = {}, []
    folder = tempfile.TemporaryDirectory()
    for picture, original in pictures.items():
        # Codes as they are stored, for all alike: an embedded profile is not honoured by every side.
        pixels = python_peers.pixels_of(original)
        path = os.path.join(folder.name, picture + ".ppm")
        python_peers.PIL.Image.open(original).convert("RGB").save(path)
        points = python_peers.oklab.from_codes(pixels)
        wanted = fit_sides(report, path, 20, points, slow=False)
        rows[picture] = report.turns(wanted, 10.0)
        once = dict(rows[picture])
        once.update({name: single(side) for name, side in python_peers.scikit_learn(points, 20).items()})
        errors = {name: python_peers.error_of(points, python_peers.codes_of(found.result))
                  for name, found in once.items()}
        pairs += [(errors["quick"] / error, picture, name, errors["quick"], error) for name, error in errors.items()
                  if name not in OURS[:2] + OURS[5:]]
    if all("libimagequant" in found for found in rows.values()):
        worst = max(rows, key=lambda p: rows[p]["quick"].least() / rows[p]["libimagequant"].least())
        report.add(timed_line(f"{figure}, time, worst of {len(rows)} ({worst})", "libimagequant", "<= 1",
                              rows[worst]["quick"], rows[worst]["libimagequant"], load(),
                              rows[worst].get("quick native")))
    else:
        report.add(missing(figure + ", time", "libimagequant", "<= 1"))
    _, picture, name, ours, theirs = max(pairs)
    report.add(value_line(f"{figure}, error, worst of {len(pairs)} pairs ({picture})", f"the nearest peer, {name}",
                          "<= 1", ours, theirs))


def single(side):
    times = sides.Times()
    times.add(side())
    return times


def pixels(report):
    """What is done to every pixel."""
    report.compare("sRGB codes to Oklab, 1 megapixel", "OpenCV cvtColor to Lab, 8 bit", ">= 2", ["to oklab"],
                   ["opencv lab", "8 bit"])
    report.compare("sRGB codes to Oklab, 1 megapixel", "OpenCV cvtColor to Lab, float", ">= 2", ["to oklab"],
                   ["opencv lab", "float"])
    for colours, least in ((20, 5), (256, 20)):
        report.compare(f"nearest colour, k = {colours}", "the plain loop", f">= {least}", ["nearest", colours],
                       ["plain nearest", colours])
    report.compare("nearest colour, k = 20", "OpenCV FLANN", ">= 20", ["nearest", 20], ["flann nearest", 20])
    points = python_peers.oklab.from_codes(python_peers.pixels_of(
        sorted(glob.glob(os.path.join(report.options.data, "cells", "*.ppm")))[0]))
    peer = python_peers.scikit_learn_nearest(points, 20)
    if peer:
        report.compare("nearest colour, k = 20, 16,700 cells", "scikit-learn", ">= 20", ["nearest cells", 20], peer)
    else:
        report.add(missing("nearest colour, k = 20", "scikit-learn", ">= 20"))
    report.compare("CIEDE2000, a million pairs", "lcms2", ">= 20", ["ciede2000"], ["lcms2 ciede2000"])
    largest = float(report.worker.side("published ciede2000",
                                       os.path.join(report.options.data, "ciede2000_sharma.csv"))()[2]) / 1e4
    report.add(Line("CIEDE2000, largest error of 34 pairs", "published values", "<= 0.0001", f"{largest:.1e}",
                    verdict="met" if largest <= 1e-4 else "miss"))


def pictures_and_jobs(report):
    report.compare("12 megapixels to cells, in linear light", "OpenCV INTER_AREA, of codes", ">= 1.5", ["area"],
                   ["opencv area"])
    with tempfile.TemporaryDirectory() as folder:
        if python_peers and python_peers.PIL:
            image = python_peers.PIL.Image
            photo = os.path.join(folder, "photo.ppm")
            report.worker.side("write photo", photo)()
            large = image.open(photo)
            large.load()
            report.worker.side("write diffuse picture", photo + "2")()
            small = image.open(photo + "2")
            small.load()
            report.compare("12 megapixels to cells, in linear light", "Pillow BOX, of codes", ">= 0.8333", ["area"],
                           sides.python_side(lambda: large.resize((100, 167), image.Resampling.BOX)))
            palette = image.new("P", (1, 1))
            colours = python_peers.palette_of(report.worker.side("diffuse palette")()[2])
            palette.putpalette([int(code) for code in colours.reshape(-1)])
            report.compare("error diffusion, 1 megapixel, 16 colours", "Pillow", ">= 2", ["diffuse"],
                           sides.python_side(lambda: small.quantize(palette=palette,
                                                                    dither=image.Dither.FLOYDSTEINBERG)))
        else:
            report.add(missing("12 megapixels to cells, in linear light", "Pillow BOX, of codes", ">= 0.8333"))
            report.add(missing("error diffusion", "Pillow", ">= 2"))
    for keep, memory in ((False, "memory as the system gives it"), (True, "memory kept from the run before")):
        report.compare(f"12-megapixel JPEG to chart, palette, takeoff, {memory}", "stb_image decodes it", "<= 1.5",
                       ["plan", 1], ["stb decode"], keep=keep)
        report.compare("the same on two threads", "stb_image decodes it on one", "<= 1.3", ["plan", 2],
                       ["stb decode"], clock="wall", keep=keep)
        report.compare("the same with all sheets", "stb_image decodes it", "<= 3", ["plan and sheets", 1],
                       ["stb decode"], keep=keep)


def seen(report):
    """Whether the way that is recommended is the one that looks best, from near and far."""
    cases = []
    for path in sorted(glob.glob(os.path.join(report.options.data, "cells", "*.ppm"))):
        for pitches in (333, 1000, 3000):
            ours, least = report.worker.side("seen ways", path, 8, pitches)()[2].split()
            name = f"{os.path.basename(path)[:-4]} at {pitches:,} pitches"
            cases.append((int(ours) / int(least), name, int(ours), int(least)))
    _, name, ours, least = max(cases)
    best = sum(case[2] == case[3] for case in cases)
    report.add(value_line(f"seen error, recommended dither, worst of {len(cases)} ({name})",
                          f"the best of all ways (it is that in {best})", "<= 1", ours, least, "{:d} steps"))


def hex_words(codes):
    return " ".join("#%02x%02x%02x" % tuple(code) for code in codes)


def stability(report):
    """How far palettes move when k is one more or less, a hundredth is cropped, or the size is halved or doubled."""
    figure = "palette distance, median of {} changes"
    limit, peers = "<= 0.5", ("Pillow median cut", "Pillow maximum coverage", "OpenCV kmeans", "OpenCV kmeans ++")
    moved = {name: [] for name in ("best", "quick") + peers}
    changes = [("none", -1), ("none", 1), ("cropped", 0), ("halved", 0), ("doubled", 0)]
    with tempfile.TemporaryDirectory() as folder:
        for picture, path in found_pictures().items():
            paths = {}
            for change in ("none", "cropped", "halved", "doubled"):
                paths[change] = os.path.join(folder, f"{picture}_{change}.ppm")
                report.worker.side("changed cells", path, change, paths[change])()
            for colours in (8, 20):
                def fitted(change, count):
                    wanted = {name: report.worker.side("fit", name, paths[change], count) for name in moved}
                    wanted.update(python_peers.pillow(paths[change], count))
                    times = in_turns({name: wanted[name] for name in moved}, repeats=1)
                    return {name: hex_words(python_peers.codes_of(found.result)) for name, found in times.items()}
                before = fitted("none", colours)
                for change, step in changes:
                    for name, palette in fitted(change, colours + step).items():
                        result = report.worker.side("palette distance", before[name], palette)()[2]
                        moved[name].append(float(result))
    for preset in ("best", "quick"):
        for name in peers:
            if not moved[name]:
                report.add(missing(f"{preset}, " + figure.format("the same"), name, limit))
                continue
            report.add(value_line(f"{preset}, " + figure.format(len(moved[name])), name, limit,
                                  statistics.median(moved[preset]), statistics.median(moved[name]), "{:.3f}"))


SECTIONS = {"fits": fits, "full": full_pictures, "pixels": pixels, "jobs": pictures_and_jobs,
            "seen": seen, "stability": stability}


def put_between_marks(path, lines):
    begin, end = "<!-- report: begin -->", "<!-- report: end -->"
    with open(path) as file:
        before, _, rest = file.read().partition(begin)
    _, found, after = rest.partition(end)
    if not found:
        raise SystemExit(f"{path}: the marks {begin} and {end} are not there; put them where the table belongs")
    text = ("\n\n### Beside general-purpose libraries\n\nOne run of the target `bench_report`: processor time on one of "
            f"{os.cpu_count()} {platform.machine()} cores, least / median of the repeats, both sides in turns. Errors are "
            "mean squared Oklab distances, palettes rounded to 8-bit sRGB.\n\n" + as_markdown(lines) + "\n")
    with open(path + ".part", "w") as file:
        file.write(before + begin + text + end + after)
    os.replace(path + ".part", path)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--worker", required=True)
    parser.add_argument("--native", default="")
    parser.add_argument("--data", required=True)
    parser.add_argument("--rows", default=",".join(SECTIONS))
    parser.add_argument("--repeats", type=int, default=9)
    parser.add_argument("--markdown", default="", help="also write the table there")
    parser.add_argument("--readme", default="", help="put the table between the marks of this file")
    parser.add_argument("--record", default="", help="write the peers' errors on the recorded cells there")
    options = parser.parse_args()
    report = Report(options)
    for name in options.rows.split(","):
        try:
            SECTIONS[name](report)
        except (RuntimeError, OSError) as fault:  # the rest is still worth having
            report.add(Line(name, "", "", verdict=f"failed: {fault}"))
    print(as_text(report.lines))
    if options.readme:
        put_between_marks(options.readme, report.lines)
    if options.markdown:
        with open(options.markdown, "w") as file:
            file.write(as_markdown(report.lines))


main()
