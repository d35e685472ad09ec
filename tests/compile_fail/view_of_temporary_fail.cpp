// expect: (deleted|delete)
// A view of a raster that is gone at the end of the line.
#include "handlaid/core/raster.hpp"

int main() {
  const auto view = handlaid::Raster<int>(2, 2).view();  // here
  return view.width();
}
