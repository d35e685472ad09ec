// Peak memory of whole processes on one picture: stb_image alone, and ours. Linux only, it asks the kernel.
//   peak_memory [PICTURE]     a made JPEG of 12 megapixels where no picture is given
// Each job runs in a process of its own: this program calls itself.
#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb_image.h>
#pragma GCC diagnostic pop

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <string>

#include "handlaid/grid/map_to.hpp"
#include "photo.hpp"

using namespace handlaid;

namespace {

/// The most memory that this process has had so far, in kB.
long peak_kb() {
  std::ifstream status("/proc/self/status");
  std::string word;
  while (status >> word) {
    long value = 0;
    if (word == "VmHWM:" && status >> value) return value;
  }
  return 0;
}

int job(const std::string& what, const std::string& picture) {
  if (what == "make") {
    const auto bytes = handlaid_bench::photo_jpeg(12e6);
    std::ofstream(picture, std::ios::binary)
        .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    return 0;
  }
  if (what == "stb") {
    int width = 0, height = 0, channels = 0;
    stbi_image_free(stbi_load(picture.c_str(), &width, &height, &channels, 3));
  } else if (what == "read") {
    read<Srgb8>(picture);
  } else if (what == "cells") {
    read<Srgb8>(picture) | map_to(Rectangular{.columns = 72, .rows = 54});
  } else if (what == "turned") {
    read<Srgb8>(picture) | orient(6) | map_to(Rectangular{.columns = 54, .rows = 72});
  }
  std::cout << peak_kb();
  return 0;
}

std::string quoted(const std::string& text) {
  std::string result = "'";
  for (const char c : text) result += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return result + "'";
}

}  // namespace

int main(int count, char** arguments) {
  if (count == 3) return job(arguments[1], arguments[2]);
  const std::string self = quoted(arguments[0]);
  const std::string made = "peak_memory_photo.jpg";
  const std::string picture = count == 2 ? arguments[1] : made;
  if (count != 2 && std::system((self + " make " + made).c_str()) != 0) return 1;

  const PictureInfo info = picture_info(read_file(picture), picture);
  const double decoded = static_cast<double>(info.width) * info.height * 3 / 1e6;
  std::cout << info.width << " x " << info.height << ", decoded " << decoded << " MB\n";
  double stb = 0;
  for (const char* const what : {"nothing", "stb", "read", "cells", "turned"}) {
    std::FILE* const process = popen((self + " " + what + " " + quoted(picture)).c_str(), "r");
    long kb = 0;
    if (process == nullptr || std::fscanf(process, "%ld", &kb) != 1 || pclose(process) != 0) return 1;
    const double mb = static_cast<double>(kb) * 1024 / 1e6;
    if (std::string(what) == "stb") stb = mb;
    std::cout << what << ": " << mb << " MB";
    if (stb > 0) std::cout << ", stb " << (mb < stb ? "- " : "+ ") << std::abs(mb - stb) / decoded << " x decoded";
    std::cout << "\n";
  }
  if (count != 2) std::remove(made.c_str());
  return 0;
}
