"""Palettes, dithering and resampling of Python libraries and of ImageMagick, as sides; those that are not installed
are left out. One thread: the caller sets OMP_NUM_THREADS=1 before Python starts."""
import os
import subprocess
import sys
import tempfile
import warnings

import numpy

from sides import python_side

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "tests", "data"))
import oklab  # noqa: E402

try:
    import sklearn.cluster
    import sklearn.metrics
    from sklearn.exceptions import ConvergenceWarning
    warnings.simplefilter("ignore", ConvergenceWarning)
except ImportError:
    sklearn = None
try:
    import PIL.Image
    PIL.Image.MAX_IMAGE_PIXELS = None
except ImportError:
    PIL = None


def pixels_of(path):
    """All pixels of a picture, as rows of codes."""
    return numpy.asarray(PIL.Image.open(path).convert("RGB")).reshape(-1, 3)


def error_of(points, palette):
    """Mean squared Oklab error, each of the points (in Oklab) to its nearest colour of a palette of codes."""
    colours = oklab.from_codes(palette)
    least = numpy.full(len(points), numpy.inf)
    for colour in colours:
        numpy.minimum(least, ((points - colour) ** 2).sum(axis=1), out=least)
    return float(least.mean())


def palette_of(text):
    """From "#102030 #405060"."""
    return numpy.array([[int(word[i:i + 2], 16) for i in (1, 3, 5)] for word in text.split()], dtype=numpy.uint8)


def scikit_learn(points, colours):
    """k-means in Oklab, one run, as it comes and in small batches."""
    if sklearn is None:
        return {}
    def fit(kind):
        made = kind(n_clusters=colours, n_init=1, random_state=0).fit(points)
        return made.cluster_centers_
    return {"scikit-learn KMeans": python_side(lambda: fit(sklearn.cluster.KMeans)),
            "scikit-learn MiniBatchKMeans": python_side(lambda: fit(sklearn.cluster.MiniBatchKMeans))}


def scikit_learn_nearest(points, colours):
    """The nearest of some of the points for each of them; None where it is not installed."""
    if sklearn is None:
        return None
    some = points[numpy.random.default_rng(7).choice(len(points), colours, replace=False)]
    return python_side(lambda: sklearn.metrics.pairwise_distances_argmin(points, some))


def pillow(path, colours):
    if PIL is None:
        return {}
    picture = PIL.Image.open(path).convert("RGB")
    picture.load()
    methods = {"Pillow median cut": PIL.Image.Quantize.MEDIANCUT, "Pillow maximum coverage": PIL.Image.Quantize.MAXCOVERAGE,
               "Pillow octree": PIL.Image.Quantize.FASTOCTREE}
    return {name: python_side(lambda method=method: picture.quantize(colours, method=method))
            for name, method in methods.items()}


def magick(path, colours):
    """A whole process: its palette counts, its time is not compared."""
    with tempfile.TemporaryDirectory() as folder:
        out = os.path.join(folder, "out.png")
        try:
            subprocess.run(["convert", path, "+dither", "-colors", str(colours), "PNG24:" + out], check=True,
                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        except (OSError, subprocess.CalledProcessError):
            return None
        return numpy.unique(pixels_of(out), axis=0)


def codes_of(result):
    """The palette of a side's result, whatever it is, as codes."""
    if isinstance(result, str):
        return palette_of(result)
    if PIL is not None and isinstance(result, PIL.Image.Image):
        used = sorted(index for _, index in result.getcolors())
        return numpy.array(result.getpalette(), dtype=numpy.uint8).reshape(-1, 3)[used]
    return oklab.to_codes(result)
