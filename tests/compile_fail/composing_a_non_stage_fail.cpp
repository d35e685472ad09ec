// expect: what follows the stage is none; wrap it in step
// A function object without `using is_stage` is set after a stage; `step(Forgotten{})` would do.
#include "handlaid/core/pipe.hpp"

struct Forgotten {
  int operator()(int value) const { return value; }
};

int main() {
  const auto both = handlaid::step(Forgotten{}) | Forgotten{};  // here
  return both(4);
}
