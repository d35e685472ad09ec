#include "handlaid.hpp"
#include "pixel.hpp"

int red_in_one() { return handlaid::read_memory<handlaid::Srgb8>(one_pixel)(0, 0).r; }
