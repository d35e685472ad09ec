"""sRGB codes and Oklab in double, for the scripts that record what other libraries do. B. Ottosson 2020, revised 2021."""
import numpy

TO_LMS = numpy.array([[0.4122214708, 0.5363325363, 0.0514459929],
                      [0.2119034982, 0.6806995451, 0.1073969566],
                      [0.0883024619, 0.2817188376, 0.6299787005]])
TO_LAB = numpy.array([[0.2104542553, 0.7936177850, -0.0040720468],
                      [1.9779984951, -2.4285922050, 0.4505937099],
                      [0.0259040371, 0.7827717662, -0.8086757660]])


def from_codes(codes):
    v = numpy.asarray(codes, dtype=numpy.float64) / 255
    linear = numpy.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)
    return numpy.cbrt(linear @ TO_LMS.T) @ TO_LAB.T


def to_codes(lab):
    linear = ((lab @ numpy.linalg.inv(TO_LAB).T) ** 3) @ numpy.linalg.inv(TO_LMS).T
    linear = numpy.clip(linear, 0, 1)
    v = numpy.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)
    return numpy.clip(numpy.floor(255 * v + 0.5), 0, 255).astype(numpy.uint8)
