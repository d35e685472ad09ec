// Pixels as Eigen matrices and the other way round, over the same memory.
#include "handlaid/image/as_eigen.hpp"

#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/image/crop.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(PlainPixel<Srgb8> && PlainPixel<Srgba16> && PlainPixel<WithAlpha<Oklab>> && PlainPixel<std::uint16_t>);
static_assert(!PlainPixel<Light*>);
static_assert(channel_count<Srgb8> == 3 && channel_count<Srgba16> == 4 && channel_count<float> == 1);
template <class R>
concept GivesMatrix = requires(R&& raster) { as_eigen(std::forward<R>(raster)); };
static_assert(GivesMatrix<Raster<Srgb8>&> && GivesMatrix<const Raster<Srgb8>&> && !GivesMatrix<Raster<Srgb8>>);

TEST_CASE("a raster is a matrix of its own memory: a column a pixel") {
  auto picture = opaque_noise(7, 5);
  const auto before = picture;
  auto matrix = as_eigen(picture);
  CHECK(matrix.rows() == 3);
  CHECK(matrix.cols() == 35);
  CHECK(static_cast<const void*>(matrix.data()) == picture.pixels().data());
  for (int y = 0; y < 5; ++y) {
    for (int x = 0; x < 7; ++x) {
      CHECK(matrix(0, 7 * y + x) == picture(x, y).r);
      CHECK(matrix(2, 7 * y + x) == picture(x, y).b);
    }
  }
  matrix.row(1).setConstant(9);
  for (std::size_t i = 0; i < picture.size(); ++i) {
    CHECK(picture.pixels()[i] == Srgb8{before.pixels()[i].r, 9, before.pixels()[i].b});
  }
}

TEST_CASE("floating channels take arithmetic") {
  Raster<LinearRgb> picture(4, 3);
  as_eigen(picture).setConstant(0.25F);
  as_eigen(picture).row(2) *= 2;
  CHECK(picture(3, 2) == LinearRgb{0.25F, 0.25F, 0.5F});
  const Raster<LinearRgb>& constant = picture;
  CHECK(as_eigen(constant).rowwise().mean().isApprox(Eigen::Vector3f(0.25F, 0.25F, 0.5F)));
}

TEST_CASE("one channel of a view with a stride has the picture's shape") {
  auto picture = noise(9, 6);
  const auto before = picture;
  const auto part = picture.view() | Crop{.x = 2, .y = 1, .width = 5, .height = 4};
  auto alpha = channel_as_eigen(part, 3);
  CHECK(alpha.rows() == 4);
  CHECK(alpha.cols() == 5);
  for (int y = 0; y < 4; ++y) {
    for (int x = 0; x < 5; ++x) CHECK(alpha(y, x) == before(x + 2, y + 1).alpha);
  }
  alpha.setZero();
  CHECK(picture(2, 1) == Srgba8{before(2, 1).colour, 0});
  CHECK(picture(1, 1) == before(1, 1));
  CHECK(picture(7, 1) == before(7, 1));
  const auto& constant = picture;
  CHECK(channel_as_eigen(constant.view(), 0)(5, 8) == before(8, 5).colour.r);
  CHECK_THROWS_WITH(channel_as_eigen(part, 4), contains("channel: 4 is out of range"));
  CHECK_THROWS_WITH(channel_as_eigen(constant.view(), -1), contains("0 to 3"));
}

TEST_CASE("a matrix is a picture of its own memory") {
  Eigen::Matrix<float, 3, Eigen::Dynamic> matrix(3, 12);
  matrix.setZero();
  matrix(1, 5) = 0.5F;
  const auto picture = as_raster<LinearRgb>(matrix, 4);
  CHECK(picture.width() == 4);
  CHECK(picture.height() == 3);
  CHECK(picture(1, 1) == LinearRgb{0, 0.5F, 0});
  picture(3, 2).b = 1;
  CHECK(matrix(2, 11) == 1);
  CHECK((picture | Crop{.x = 1, .y = 1, .width = 1, .height = 1})(0, 0).g == 0.5F);
  CHECK_THROWS_WITH(as_raster<LinearRgb>(matrix, 5), contains("3 x 12 is no picture of 5 pixels a row"));
  CHECK_THROWS_AS(as_raster<LinearRgb>(matrix, 0), Error);
  Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic> wrong(4, 12);
  CHECK_THROWS_AS(as_raster<LinearRgb>(wrong, 4), Error);
}
