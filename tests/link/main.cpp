#include "pixel.hpp"

int main() { return red_in_one() == 200 && red_in_two() == 200 ? 0 : 1; }
