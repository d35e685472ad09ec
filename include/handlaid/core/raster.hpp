// Pixels in rows, top row first: `Raster` owns them, `RasterView` borrows somebody else's without a copy.
// A view is only ever made by name (`view(...)`, `raster.view()`); a temporary raster never decays to one.
#pragma once

#include <concepts>
#include <cstddef>
#include <cstdlib>
#include <span>
#include <string>
#include <type_traits>
#include <utility>

#include "handlaid/core/error.hpp"

namespace handlaid {

/// Rows of pixels that belong to somebody else. `stride` is the distance of two rows in pixels, at least `width`.
template <class Pixel>
class RasterView {
 public:
  using pixel_type = std::remove_const_t<Pixel>;

  RasterView() = default;
  RasterView(Pixel* first, int width, int height, std::ptrdiff_t stride)
      : first_(first), width_(width), height_(height), stride_(stride) {}

  int width() const { return width_; }
  int height() const { return height_; }
  std::ptrdiff_t stride() const { return stride_; }
  bool empty() const { return width_ == 0 || height_ == 0; }
  Pixel* data() const { return first_; }
  std::span<Pixel> row(int y) const { return {first_ + y * stride_, static_cast<std::size_t>(width_)}; }
  Pixel& operator()(int x, int y) const { return first_[y * stride_ + x]; }

 private:
  Pixel* first_ = nullptr;
  int width_ = 0;
  int height_ = 0;
  std::ptrdiff_t stride_ = 0;
};

/// Pixels that belong to this raster, row after row without gaps.
/// Pixels are trivially copyable; they start at zero. Copying is spelt by copying, moving is free.
template <class Pixel>
class Raster {
  static_assert(std::is_trivially_copyable_v<Pixel>, "a raster holds plain values");

 public:
  using pixel_type = Pixel;
  /// Frees adopted memory, as `std::free` does.
  using Release = void (*)(void*);

  Raster() = default;
  /// Throws Error for a negative size or when there is not enough memory.
  Raster(int width, int height) : width_(width), height_(height), release_(&std::free) {
    if (width < 0 || height < 0) {
      throw Error::bad_option("raster size", std::to_string(width) + " x " + std::to_string(height), "give 0 or more");
    }
    if (size() == 0) return;
    pixels_ = static_cast<Pixel*>(std::calloc(size(), sizeof(Pixel)));
    if (pixels_ == nullptr) {
      throw Error::bad_input("memory", "no room for " + std::to_string(size()) + " pixels", "use a smaller picture");
    }
  }
  /// Takes over `width * height` pixels that `release` frees.
  static Raster adopt(Pixel* pixels, int width, int height, Release release) {
    Raster raster;
    raster.pixels_ = pixels;
    raster.width_ = width;
    raster.height_ = height;
    raster.release_ = release;
    return raster;
  }

  Raster(const Raster& other) : Raster(other.width_, other.height_) {
    for (std::size_t i = 0; i < size(); ++i) pixels_[i] = other.pixels_[i];
  }
  Raster(Raster&& other) noexcept { swap(other); }
  Raster& operator=(Raster other) noexcept {
    swap(other);
    return *this;
  }
  ~Raster() {
    if (pixels_ != nullptr) release_(pixels_);
  }
  void swap(Raster& other) noexcept {
    std::swap(pixels_, other.pixels_);
    std::swap(width_, other.width_);
    std::swap(height_, other.height_);
    std::swap(release_, other.release_);
  }

  int width() const { return width_; }
  int height() const { return height_; }
  std::size_t size() const { return static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_); }
  bool empty() const { return size() == 0; }

  std::span<Pixel> pixels() { return {pixels_, size()}; }
  std::span<const Pixel> pixels() const { return {pixels_, size()}; }
  std::span<Pixel> row(int y) { return {pixels_ + offset(0, y), static_cast<std::size_t>(width_)}; }
  std::span<const Pixel> row(int y) const { return {pixels_ + offset(0, y), static_cast<std::size_t>(width_)}; }
  Pixel& operator()(int x, int y) { return pixels_[offset(x, y)]; }
  const Pixel& operator()(int x, int y) const { return pixels_[offset(x, y)]; }

  RasterView<Pixel> view() & { return {pixels_, width_, height_, width_}; }
  RasterView<const Pixel> view() const& { return {pixels_, width_, height_, width_}; }
  RasterView<const Pixel> view() const&& = delete;

  /// The same memory read as rows of another shape, with no more pixels than before. Used after reordering in place.
  void reshape(int width, int height) {
    width_ = width;
    height_ = height;
  }

  friend bool operator==(const Raster& a, const Raster& b) {
    if (a.width_ != b.width_ || a.height_ != b.height_) return false;
    for (std::size_t i = 0; i < a.size(); ++i) {
      if (!(a.pixels_[i] == b.pixels_[i])) return false;
    }
    return true;
  }

 private:
  std::size_t offset(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x);
  }

  Pixel* pixels_ = nullptr;
  int width_ = 0;
  int height_ = 0;
  Release release_ = &std::free;
};

/// Borrows `width x height` pixels of an embedder's memory; `stride` in pixels.
template <class Pixel>
RasterView<Pixel> view(Pixel* first, int width, int height, std::ptrdiff_t stride) {
  if (width < 0 || height < 0 || stride < width) {
    throw Error::bad_option("view", "size or stride makes no sense", "give sizes of 0 or more and stride >= width");
  }
  return {first, width, height, stride};
}

/// Anything that gives rows of pixels: `Raster`, `RasterView`, or an embedder's own type of this shape.
template <class R>
concept AnyRaster = requires(const R& raster, int y) {
  typename R::pixel_type;
  { raster.width() } -> std::convertible_to<int>;
  { raster.height() } -> std::convertible_to<int>;
  { raster.row(y)[0] } -> std::convertible_to<const typename R::pixel_type&>;
};

/// A raster of one certain pixel type.
template <class R, class Pixel>
concept RasterOf = AnyRaster<R> && std::same_as<typename R::pixel_type, Pixel>;

}  // namespace handlaid
