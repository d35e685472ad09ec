#include "handlaid/image/read.hpp"
//
#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#include <stb_image.h>
#define STB_IMAGE_WRITE_STATIC
#define STB_IMAGE_WRITE_IMPLEMENTATION
#include <stb_image_write.h>

#include "pixel.hpp"
#include "red_of_both.hpp"

int red_with_own_stb_after() { return red_of_both(); }
