// For files that have the user's stb and ours: the red of the pixel if both find the same, else 0.
#pragma once

static int red_of_both() {
  int width = 0;
  int height = 0;
  int channels = 0;
  stbi_uc* pixels = stbi_load_from_memory(one_pixel.data(), one_pixel.size(), &width, &height, &channels, 3);
  const int red = pixels != nullptr ? pixels[0] : 0;
  stbi_image_free(pixels);
  return handlaid::read_memory<handlaid::Srgb8>(one_pixel)(0, 0).r == red ? red : 0;
}
