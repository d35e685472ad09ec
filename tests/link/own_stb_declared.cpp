#include <stb_image.h>
#include <stb_image_write.h>
//
#include "handlaid/image/read.hpp"
#include "pixel.hpp"
#include "red_of_both.hpp"

int red_with_own_stb_declared() { return red_of_both(); }
