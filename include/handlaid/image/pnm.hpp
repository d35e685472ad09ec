// PNM (netpbm's pbm, pgm and ppm; magic numbers P1 to P6): black and white, grey and colour, as text or binary, with
// any largest value up to 65535. Samples are taken as sRGB codes. Only the first picture of a file is read.
#pragma once

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/decoded.hpp"

namespace handlaid::detail {

/// Reads header and samples one after the other.
template <When = When::called>
class PnmReader {
 public:
  PnmReader(Bytes bytes, const std::string& name) : bytes_(bytes), name_(name) {
    kind_ = bytes_[1] - '0';
    at_ = 2;
    width_ = number();
    height_ = number();
    most_ = is_bitmap() ? 1 : number();
    if (most_ < 1 || most_ > 65535) throw damaged(name_, "the PNM's largest value is not 1 to 65535");
    if (!is_text()) ++at_;  // one white space, then the samples
  }

  std::int64_t width() const { return width_; }
  std::int64_t height() const { return height_; }
  bool is_bitmap() const { return kind_ == 1 || kind_ == 4; }
  bool is_text() const { return kind_ <= 3; }
  bool is_colour() const { return kind_ == 3 || kind_ == 6; }
  int bits() const {
    int bits = 1;
    while (bits < 16 && most_ >= std::int64_t{1} << bits) ++bits;
    return bits;
  }

  /// Throws Error unless there are bytes enough for all samples: before memory is taken for them.
  void check_length() const {
    const std::int64_t samples = width_ * (is_colour() ? 3 : 1);
    std::int64_t row = samples;
    if (kind_ == 4) row = (samples + 7) / 8;
    if (kind_ == 2 || kind_ == 3) row = 2 * samples;  // a digit and a space
    if (kind_ >= 5 && most_ > 255) row = 2 * samples;
    const std::int64_t needed = row * height_ - (kind_ == 2 || kind_ == 3 ? 1 : 0);
    if (at_ > bytes_.size() || static_cast<std::int64_t>(bytes_.size() - at_) < needed) throw cut_short();
  }

  template <class T>
  void read_row(T* out, int channels) {
    const auto most = static_cast<std::uint32_t>(most_);
    for (std::int64_t x = 0; x < width_; ++x, out += channels) {
      for (int c = 0; c < 3; ++c) out[c] = c > 0 && !is_colour() ? out[0] : full_range<T>(sample(x), most);
      if (channels == 4) out[3] = static_cast<T>(~T{0});
    }
    if (kind_ == 4) at_ += static_cast<std::size_t>((width_ + 7) / 8);
  }

 private:
  Error cut_short() const { return damaged(name_, "the PNM is cut short"); }

  void skip_space() {
    while (at_ < bytes_.size()) {
      const unsigned char c = bytes_[at_];
      if (c == '#') {
        while (at_ < bytes_.size() && bytes_[at_] != '\n' && bytes_[at_] != '\r') ++at_;
      } else if (c == ' ' || (c >= '\t' && c <= '\r')) {
        ++at_;
      } else {
        return;
      }
    }
    throw cut_short();
  }
  std::int64_t number() {
    skip_space();
    std::int64_t value = -1;
    for (; at_ < bytes_.size() && bytes_[at_] >= '0' && bytes_[at_] <= '9'; ++at_) {
      value = (value < 0 ? 0 : value * 10) + (bytes_[at_] - '0');
      if (value > INT32_MAX) break;
    }
    if (value < 0 || value > INT32_MAX) throw damaged(name_, "the PNM has something that is not a number");
    return value;
  }
  std::uint32_t sample(std::int64_t x) {
    std::int64_t value = 0;
    switch (kind_) {
      case 1:  // digits need no space between them; 1 is black
        skip_space();
        value = '1' - bytes_[at_++];
        if (value != 0 && value != 1) throw damaged(name_, "the PBM has something that is not 0 or 1");
        break;
      case 4:
        value = 1 - (bytes_[at_ + static_cast<std::size_t>(x / 8)] >> (7 - x % 8) & 1);
        break;
      case 2:
      case 3:
        value = number();
        break;
      default:
        value = bytes_[at_++];
        if (most_ > 255) value = value * 256 + bytes_[at_++];
    }
    if (value > most_) throw damaged(name_, "the PNM has a value above its largest");
    return static_cast<std::uint32_t>(value);
  }

  Bytes bytes_;
  const std::string& name_;
  std::size_t at_ = 0;
  int kind_ = 0;
  std::int64_t width_ = 0;
  std::int64_t height_ = 0;
  std::int64_t most_ = 1;
};

template <When = When::called>
PictureInfo pnm_info(Bytes bytes, const std::string& name) {
  const PnmReader reader(bytes, name);
  check_size(reader.width(), reader.height(), {.max_pixels = INT64_MAX}, name);
  return {
      PictureFormat::pnm, static_cast<int>(reader.width()), static_cast<int>(reader.height()), false, reader.bits(), 1};
}

template <When = When::called>
Decoded decode_pnm(Bytes bytes, const Wanted& wanted, const ReadOptions& options, const std::string& name) {
  PnmReader reader(bytes, name);
  check_size(reader.width(), reader.height(), options, name);
  reader.check_length();
  Decoded decoded{.samples = {},
                  .width = static_cast<int>(reader.width()),
                  .height = static_cast<int>(reader.height()),
                  .channels = wanted.channels,
                  .sample_bytes = wanted.sample_bytes};
  const auto line = static_cast<std::size_t>(decoded.width) * static_cast<std::size_t>(decoded.channels);
  const auto rows = static_cast<std::size_t>(decoded.height);
  decoded.samples = take_memory(rows * line * static_cast<std::size_t>(decoded.sample_bytes), name);
  for (std::size_t y = 0; y < rows; ++y) {
    if (decoded.sample_bytes == 1) {
      reader.read_row(decoded.samples.get() + y * line, decoded.channels);
    } else {
      reader.read_row(reinterpret_cast<std::uint16_t*>(decoded.samples.get()) + y * line, decoded.channels);
    }
  }
  return decoded;
}

}  // namespace handlaid::detail
