// expect: Length
// A number is no length: it needs a unit, as in 12 * mm.
#include "handlaid/core/length.hpp"

int main() {
  const handlaid::Length pitch = 12.0;  // here
  return static_cast<int>(pitch.um());
}
