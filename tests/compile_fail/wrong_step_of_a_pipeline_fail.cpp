// expect: Refusal<Width, int>
// The second stage of a stored pipeline does not take what the first one makes.
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/raster.hpp"

struct Width {
  using is_stage = void;
  int operator()(const handlaid::Raster<int>& raster) const { return raster.width(); }
};

int main() {
  const auto twice = handlaid::step(Width{}) | Width{};
  const auto width = handlaid::Raster<int>(2, 2) | twice;  // here
  return width;
}
