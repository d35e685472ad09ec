// A photo of 12 megapixels: to cells, and the main job beside what stb_image needs only to decode it.
#include <memory>

#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb_image.h>
#pragma GCC diagnostic pop

#include "../photo.hpp"
#include "handlaid/files/text_file.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/plan/make.hpp"
#include "handlaid/sheets/all.hpp"
#include "tasks.hpp"

namespace {

using namespace handlaid;
using namespace handlaid_bench;

constexpr double photo_pixels = 12e6;

const Raster<Srgb8>& large() {
  static const auto made = photo(photo_pixels);
  return made;
}
const std::vector<unsigned char>& jpeg() {
  static const auto made = photo_jpeg(photo_pixels);
  return made;
}

const AddTask area("area", [](const Arguments&) -> Task {
  large();
  const auto sum = std::make_shared<int>(0);
  return {.run = [sum] { *sum += map_to(Rectangular{.columns = 100, .rows = 167})(large()).laid(0, 0); }};
});

/// "write photo FILE": the same pixels for a peer in another process, as PPM.
const AddTask write("write photo", [](const Arguments& arguments) -> Task {
  return {.run = [path = argument(arguments, 0)] {
    std::string ppm = "P6\n" + std::to_string(large().width()) + " " + std::to_string(large().height()) + "\n255\n";
    for (const Srgb8& pixel : large().pixels()) {
      for (const std::uint8_t code : {pixel.r, pixel.g, pixel.b}) ppm += static_cast<char>(code);
    }
    write_text_file(path, ppm);
  }};
});

const AddTask decode("stb decode", [](const Arguments&) -> Task {
  jpeg();
  return {.run = [] {
    int width = 0;
    int height = 0;
    int channels = 0;
    stbi_image_free(
        stbi_load_from_memory(jpeg().data(), static_cast<int>(jpeg().size()), &width, &height, &channels, 3));
  }};
});

Job quick_job() { return {.picture = "photo.jpg"}; }

const AddTask plan("plan", [](const Arguments& arguments) -> Task {
  jpeg();
  const auto sum = std::make_shared<std::int64_t>(0);
  return {.run = [sum, work = Work{.threads = std::stoi(argument(arguments, 0))}] {
    *sum += make_plan(quick_job(), jpeg(), "photo.jpg", {}, work).tally.laid();
  }};
});

const AddTask sheets("plan and sheets", [](const Arguments& arguments) -> Task {
  jpeg();
  const auto sum = std::make_shared<std::size_t>(0);
  return {.run = [sum, work = Work{.threads = std::stoi(argument(arguments, 0))}] {
    *sum += make_sheets(make_plan(quick_job(), jpeg(), "photo.jpg", {}, work), work).size();
  }};
});

}  // namespace
