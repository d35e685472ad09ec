#define STB_IMAGE_IMPLEMENTATION
#include <stb_image.h>
#define STB_IMAGE_WRITE_IMPLEMENTATION
#include <stb_image_write.h>

#include "pixel.hpp"

int red_with_own_stb() {
  int width = 0;
  int height = 0;
  int channels = 0;
  stbi_uc* pixels = stbi_load_from_memory(one_pixel.data(), one_pixel.size(), &width, &height, &channels, 3);
  const int red = pixels != nullptr ? pixels[0] : 0;
  stbi_image_free(pixels);
  return red;
}
