// What the readers of formats hand on: samples in memory that `std::free` frees, so that a raster can adopt them.
#pragma once

#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string>
#include <utility>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/picture_format.hpp"
#include "handlaid/image/profile.hpp"

namespace handlaid {

/// What to accept of a file, and what to do with transparent parts.
struct ReadOptions {
  /// The most pixels; checked before memory is taken for them.
  std::int64_t max_pixels = 100'000'000;
  /// The longest file.
  std::int64_t max_bytes = 512'000'000;
  /// Transparent parts are laid over this colour, in linear light.
  std::optional<Srgb8> ground = std::nullopt;
  /// Take codes to sRGB by the picture's profile; otherwise they are read as they are stored.
  bool use_profile = true;
};

/// What a picture's header says.
struct PictureInfo {
  PictureFormat format = PictureFormat::jpeg;
  /// In pixels, upright: after the orientation is applied.
  int width = 0;
  int height = 0;
  /// Whether the file can hold transparent pixels.
  bool has_alpha = false;
  /// Bits of a channel as stored, 1 to 16.
  int bits = 8;
  /// EXIF orientation, 1 to 8.
  int orientation = 1;
  /// What it says of its colours, and what reading does about it.
  PictureProfile profile = {};
  friend bool operator==(const PictureInfo&, const PictureInfo&) = default;
};

namespace detail {

/// Owns memory that `std::free` frees. (The header of unique_ptr would double the time that this one takes to compile.)
class Memory {
 public:
  Memory() = default;
  explicit Memory(void* memory) : bytes_(static_cast<unsigned char*>(memory)) {}
  Memory(Memory&& other) noexcept : bytes_(other.release()) {}
  Memory& operator=(Memory&& other) noexcept {
    std::swap(bytes_, other.bytes_);
    return *this;
  }
  ~Memory() { std::free(bytes_); }

  unsigned char* get() const { return bytes_; }
  unsigned char* release() { return std::exchange(bytes_, nullptr); }

 private:
  unsigned char* bytes_ = nullptr;
};

/// Cleared memory; throws Error when there is none.
template <When = When::called>
Memory take_memory(std::size_t bytes, const std::string& name) {
  Memory memory(std::calloc(bytes, 1));
  if (memory.get() == nullptr) {
    throw Error::bad_input(name, "there is no memory for " + std::to_string(bytes / 1'000'000 + 1) + " MB of pixels",
                           "make the picture smaller");
  }
  return memory;
}

/// Rows of `channels` samples of 1 or 2 bytes (in the machine's order), as stored: not yet upright.
struct Decoded {
  Memory samples = {};
  int width = 0;
  int height = 0;
  int channels = 3;
  int sample_bytes = 1;
  int orientation = 1;

  std::size_t pixels() const { return static_cast<std::size_t>(width) * static_cast<std::size_t>(height); }
};

/// How the caller wants the samples; a reader that cannot give 2 bytes gives 1, and 4 channels where there is alpha.
struct Wanted {
  int channels = 4;
  int sample_bytes = 1;
};

/// Throws Error for a size of nothing or one above the limit.
template <When = When::called>
void check_size(std::int64_t width, std::int64_t height, const ReadOptions& options, const std::string& name) {
  if (width < 1 || height < 1) {
    throw damaged(name, "its size is " + std::to_string(width) + " x " + std::to_string(height));
  }
  if (width > options.max_pixels / height || width > INT32_MAX || height > INT32_MAX) {
    throw Error::bad_input(name,
                           "it has " + std::to_string(width) + " x " + std::to_string(height) +
                               " pixels, more than the limit of " + std::to_string(options.max_pixels),
                           "make it smaller or raise the limit");
  }
}

/// A sample of `most` at its largest, in the full range of T, rounded to nearest.
template <class T>
constexpr T full_range(std::uint32_t value, std::uint32_t most) {
  constexpr std::uint64_t full = sizeof(T) == 1 ? 255 : 65535;
  return static_cast<T>((value * full + most / 2) / most);
}

}  // namespace detail
}  // namespace handlaid
