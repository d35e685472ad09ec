#include "handlaid.hpp"
#include "pixel.hpp"

int red_in_two() { return handlaid::read_memory<handlaid::Srgba8>(one_pixel)(0, 0).colour.r; }
