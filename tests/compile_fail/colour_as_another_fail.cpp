// expect: Oklab
// Colour spaces are never converted in silence: convert_colour<Oklab>(code).
#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"

int main() {
  const handlaid::Srgb8 code = {1, 2, 3};
  const handlaid::Oklab lab = code;  // here
  return lab.L > 0;
}
