#include "pixel.hpp"

int main() {
  const bool all = red_in_one() == 200 && red_in_two() == 200 && red_with_own_stb() == 200 &&
                   red_with_own_stb_declared() == 200 && red_with_own_stb_before() == 200 &&
                   red_with_own_stb_after() == 200;
  return all ? 0 : 1;
}
