// Pixels as Eigen matrices and Eigen matrices as pixels, without a copy. The only header of this room that needs Eigen.
#pragma once

#include <Eigen/Core>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/core/raster.hpp"

namespace handlaid {

namespace detail {

template <class P>
struct Channels {
  using type = typename AlphaOf<ColourOf<P>>::type;
};
template <class P>
  requires std::is_arithmetic_v<P>
struct Channels<P> {
  using type = P;
};

}  // namespace detail

/// The number type of a pixel's channels: the pixel itself where it is a number.
template <class P>
using ChannelOf = typename detail::Channels<P>::type;

/// How many channels a pixel has; they lie one after the other.
template <class P>
inline constexpr int channel_count = static_cast<int>(sizeof(P) / sizeof(ChannelOf<P>));

/// A pixel that is nothing but channels of one number type.
template <class P>
concept PlainPixel = std::is_arithmetic_v<ChannelOf<P>> && std::is_standard_layout_v<P> &&
                     sizeof(P) % sizeof(ChannelOf<P>) == 0 && alignof(P) == alignof(ChannelOf<P>);

/// A raster seen as a matrix: a column for each pixel, a row for each channel.
template <class P>
using PixelMatrix = Eigen::Map<Eigen::Matrix<ChannelOf<P>, channel_count<P>, Eigen::Dynamic>>;
template <class P>
using ConstPixelMatrix = Eigen::Map<const Eigen::Matrix<ChannelOf<P>, channel_count<P>, Eigen::Dynamic>>;

/// One channel of a picture seen as a matrix: a row for each row of pixels.
template <class P>
using ChannelMatrix = Eigen::Map<Eigen::Matrix<ChannelOf<P>, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>, 0,
                                 Eigen::Stride<Eigen::Dynamic, Eigen::Dynamic>>;
template <class P>
using ConstChannelMatrix =
    Eigen::Map<const Eigen::Matrix<ChannelOf<P>, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>, 0,
               Eigen::Stride<Eigen::Dynamic, Eigen::Dynamic>>;

/// All pixels of a raster, in reading order, as the columns of a matrix over the same memory. The raster must outlive
/// it.
template <PlainPixel P>
PixelMatrix<P> as_eigen(Raster<P>& raster) {
  return {reinterpret_cast<ChannelOf<P>*>(raster.pixels().data()), channel_count<P>,
          static_cast<Eigen::Index>(raster.size())};
}
template <PlainPixel P>
ConstPixelMatrix<P> as_eigen(const Raster<P>& raster) {
  return {reinterpret_cast<const ChannelOf<P>*>(raster.pixels().data()), channel_count<P>,
          static_cast<Eigen::Index>(raster.size())};
}
template <PlainPixel P>
void as_eigen(const Raster<P>&&) = delete;  // handlaid: a temporary raster would be gone before the matrix is used

/// One channel, counted from 0, as a matrix of the picture's shape over the same memory.
/// Throws Error for a channel that the pixel does not have.
template <PlainPixel P>
ChannelMatrix<P> channel_as_eigen(const RasterView<P>& view, int channel) {
  if (channel < 0 || channel >= channel_count<P>) {
    throw Error::out_of_range("channel", std::to_string(channel), "0 to " + std::to_string(channel_count<P> - 1));
  }
  return {reinterpret_cast<ChannelOf<P>*>(view.data()) + channel,
          view.height(),
          view.width(),
          {view.stride() * channel_count<P>, channel_count<P>}};
}
template <PlainPixel P>
ConstChannelMatrix<P> channel_as_eigen(const RasterView<const P>& view, int channel) {
  if (channel < 0 || channel >= channel_count<P>) {
    throw Error::out_of_range("channel", std::to_string(channel), "0 to " + std::to_string(channel_count<P> - 1));
  }
  return {reinterpret_cast<const ChannelOf<P>*>(view.data()) + channel,
          view.height(),
          view.width(),
          {view.stride() * channel_count<P>, channel_count<P>}};
}

/// A matrix of one column a pixel, in reading order, as a picture of `width` pixels a row over the same memory. The
/// matrix must outlive it.
/// Throws Error unless it has a row for each channel and its columns fill whole rows of pixels.
template <PlainPixel P, class Matrix>
  requires std::same_as<typename Matrix::Scalar, ChannelOf<P>> && (!Matrix::IsRowMajor)
RasterView<P> as_raster(Matrix& matrix, int width) {
  const Eigen::Index pixels = matrix.cols();
  if (matrix.rows() != channel_count<P> || matrix.outerStride() != channel_count<P> || width < 1 ||
      pixels % width != 0 || pixels / width > INT32_MAX) {
    throw Error::bad_option("as_raster",
                            "a matrix of " + std::to_string(matrix.rows()) + " x " + std::to_string(pixels) +
                                " is no picture of " + std::to_string(width) + " pixels a row",
                            "give a row for each channel and a column for each pixel, without gaps");
  }
  return view(reinterpret_cast<P*>(matrix.data()), width, static_cast<int>(pixels / width), width);
}

}  // namespace handlaid
