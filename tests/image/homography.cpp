#include "handlaid/image/homography.hpp"

#include <vector>

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::WithinAbs;

namespace {

std::vector<PlanePair> pairs_of(const BoardCorners& to) {
  return {{{0, 0}, to[0]}, {{1, 0}, to[1]}, {{1, 1}, to[2]}, {{0, 1}, to[3]}};
}

/// The unit square to any quadrilateral, in closed form: P. Heckbert, "Fundamentals of texture mapping and image
/// warping", 1989, section 2.2.3.
Homography heckbert(const BoardCorners& q) {
  const double sx = q[0].x - q[1].x + q[2].x - q[3].x;
  const double sy = q[0].y - q[1].y + q[2].y - q[3].y;
  const double dx1 = q[1].x - q[2].x, dx2 = q[3].x - q[2].x, dy1 = q[1].y - q[2].y, dy2 = q[3].y - q[2].y;
  const double below = dx1 * dy2 - dx2 * dy1;
  const double g = (sx * dy2 - dx2 * sy) / below;
  const double h = (dx1 * sy - sx * dy1) / below;
  return {{q[1].x - q[0].x + g * q[1].x, q[3].x - q[0].x + h * q[3].x, q[0].x,  //
           q[1].y - q[0].y + g * q[1].y, q[3].y - q[0].y + h * q[3].y, q[0].y, g, h, 1}};
}

void check_same(const Homography& one, const Homography& other, double within = 1e-9) {
  for (const PlanePoint p :
       {PlanePoint{0, 0}, PlanePoint{1, 0}, PlanePoint{0.5, 0.5}, PlanePoint{0.2, 0.9}, PlanePoint{1, 1}}) {
    CHECK_THAT(one(p).x, WithinAbs(other(p).x, within));
    CHECK_THAT(one(p).y, WithinAbs(other(p).y, within));
  }
}

}  // namespace

TEST_CASE("four places give the map in closed form") {
  const BoardCorners tilted = {{{100, 900}, {180, 120}, {820, 200}, {960, 1000}}};
  check_same(fit_homography(pairs_of(tilted)), heckbert(tilted), 1e-7);
  // By hand: the diagonals of the trapezium (0,0) (4,0) (3,2) (1,2) cross at 2/3 of its height, where the middle goes.
  const BoardCorners trapezium = {{{0, 0}, {4, 0}, {3, 2}, {1, 2}}};
  const PlanePoint middle = fit_homography(pairs_of(trapezium))({0.5, 0.5});
  CHECK_THAT(middle.x, WithinAbs(2, 1e-9));
  CHECK_THAT(middle.y, WithinAbs(4.0 / 3, 1e-9));
  const BoardCorners square = {{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};
  check_same(fit_homography(pairs_of(square)), Homography{});
}

TEST_CASE("the way back leads back") {
  const Homography map = fit_homography(pairs_of({{{100, 900}, {180, 120}, {820, 200}, {960, 1000}}}));
  const Homography back = map.inverse();
  for (const PlanePoint p : {PlanePoint{0.1, 0.3}, PlanePoint{0.8, 0.6}}) {
    CHECK_THAT(back(map(p)).x, WithinAbs(p.x, 1e-9));
    CHECK_THAT(back(map(p)).y, WithinAbs(p.y, 1e-9));
  }
}

TEST_CASE("of many places with noise no other map has less algebraic error") {
  const Homography truth = heckbert({{{100, 900}, {180, 120}, {820, 200}, {960, 1000}}});
  Random random(2);
  const auto part = [&] { return static_cast<double>(random.below(1000)) / 1000; };
  std::vector<PlanePair> pairs;
  for (int i = 0; i < 40; ++i) {
    const PlanePoint p{part(), part()};
    const PlanePoint q = truth(p);
    pairs.push_back({p, {q.x + part() - 0.5, q.y + part() - 0.5}});
  }
  const Homography fitted = fit_homography(pairs);
  check_same(fitted, truth, 0.5);
  // The error that is made least, in scaled places and for maps of length 1 there: written out, without matrices.
  const auto from =
      detail::PlaneScale::over(std::span<const PlanePair>(pairs), [](const PlanePair& p) { return p.from; });
  const auto to = detail::PlaneScale::over(std::span<const PlanePair>(pairs), [](const PlanePair& p) { return p.to; });
  const auto error_of = [&](const Homography& map) {
    double length = 0;
    for (const double v : map.m) length += v * v;
    double error = 0;
    for (const PlanePair& pair : pairs) {
      const PlanePoint p = from(pair.from);
      const PlanePoint q = to(pair.to);
      const double w = map.m[6] * p.x + map.m[7] * p.y + map.m[8];
      const double x = map.m[0] * p.x + map.m[1] * p.y + map.m[2] - q.x * w;
      const double y = map.m[3] * p.x + map.m[4] * p.y + map.m[5] - q.y * w;
      error += x * x + y * y;
    }
    return error / length;
  };
  const Homography best = detail::product(to.map(), detail::product(fitted, from.back()));
  const double least = error_of(best);
  CHECK(least > 0);
  for (int round = 0; round < 20'000; ++round) {
    Homography other = best;
    const double far = round % 2 == 0 ? 1e-3 : 1;
    for (double& v : other.m) v += far * (part() - 0.5);
    REQUIRE(error_of(other) >= least * (1 - 1e-12));
  }
}

TEST_CASE("places on a line say nothing, and are refused") {
  const auto on = [](const BoardCorners& from) {
    std::vector<PlanePair> pairs = pairs_of({{{0, 0}, {9, 0}, {9, 9}, {0, 9}}});
    for (std::size_t i = 0; i < 4; ++i) pairs[i].from = from[i];
    return pairs;
  };
  CHECK_THROWS_WITH(fit_homography(on({{{0, 0}, {1, 1}, {2, 2}, {3, 3}}})), contains("on a line"));
  CHECK_THROWS_WITH(fit_homography(on({{{0, 0}, {1, 1}, {2, 2}, {0, 3}}})), contains("on a line"));
  CHECK_THROWS_WITH(fit_homography(on({{{1, 1}, {1, 1}, {1, 1}, {1, 1}}})), contains("on a line"));
  CHECK_THROWS_WITH(fit_homography(on({{{0, 0}, {1, 0}, {1, 1e300}, {0, 1}}})), contains("million"));
  CHECK_THROWS_WITH(fit_homography(std::vector<PlanePair>(3)), contains("3 are too few"));
}

TEST_CASE("corners that are none of a board are refused, each for its own reason") {
  const auto check = [](const BoardCorners& corners) { check_corners(corners, 1000, 800, "--corners"); };
  CHECK_NOTHROW(check({{{10, 790}, {10, 10}, {990, 10}, {990, 790}}}));
  CHECK_NOTHROW(check({{{10, 10}, {990, 10}, {990, 790}, {10, 790}}}));  // the board on its side
  CHECK_THROWS_WITH(check({{{10, 790}, {10, -1}, {990, 10}, {990, 790}}}), contains("corner 2 is outside"));
  CHECK_THROWS_WITH(check({{{10, 790}, {10, 10}, {1001, 10}, {990, 790}}}), contains("0,0 to 1000,800"));
  CHECK_THROWS_WITH(check({{{10, 790}, {990, 10}, {10, 10}, {990, 790}}}), contains("cross"));
  CHECK_THROWS_WITH(check({{{990, 790}, {990, 10}, {10, 10}, {10, 790}}}), contains("anticlockwise"));
  CHECK_THROWS_WITH(check({{{10, 790}, {10, 400}, {10, 10}, {990, 790}}}), contains("on one line"));
}
