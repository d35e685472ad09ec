// lcms2: CIEDE2000.
#include <lcms2.h>

#include <memory>

#include "inputs.hpp"
#include "tasks.hpp"

namespace {

using namespace handlaid_bench;

const AddTask difference("lcms2 ciede2000", [](const Arguments&) -> Task {
  std::vector<cmsCIELab> lab;
  for (const auto& colour : lab_pixels()) lab.push_back({double{colour.L}, double{colour.a}, double{colour.b}});
  const auto sum = std::make_shared<double>(0);
  return {.run = [lab, sum] {
    for (std::size_t i = 0; i < lab.size(); ++i) {
      *sum += cmsCIE2000DeltaE(&lab[i], &lab[partner(i, lab.size())], 1, 1, 1);
    }
  }};
});

}  // namespace
