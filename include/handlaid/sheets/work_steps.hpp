// The order of the work, from the plan to the wall, with the hazards of each step.
#pragma once

#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/board_steps.hpp"
#include "handlaid/sheets/piece_steps.hpp"
#include "handlaid/sheets/strip_steps.hpp"
#include "handlaid/sheets/work_step.hpp"

namespace handlaid {

/// The steps for the method of the plan.
template <When = When::called>
std::vector<WorkStep> work_steps(const Plan& plan) {
  std::vector<WorkStep> steps{detail::look_step(), detail::print_step(plan)};
  const auto add = [&](std::vector<WorkStep> more) {
    for (WorkStep& step : more) steps.push_back(std::move(step));
  };
  if (plan.strips) {
    add(detail::steps_of_trial(plan));
    add(detail::steps_to_strips(plan));
    if (detail::is_cut_first(plan)) steps.push_back(detail::fringe_step(plan));
  } else {
    add(detail::steps_to_pieces(plan));
  }
  steps.push_back(detail::board_step(plan));
  if (plan.fabrication.frame) steps.push_back(detail::frame_step(plan));
  steps.push_back(detail::setting_out_step());
  add(plan.strips ? detail::steps_of_mounting(plan) : detail::steps_of_laying(plan));
  add(detail::last_steps(plan));
  return steps;
}

}  // namespace handlaid
