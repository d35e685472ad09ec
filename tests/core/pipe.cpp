// Composition, seen from another namespace.
#include <memory>

#include "handlaid/core/executor.hpp"
#include "handlaid/core/pipe.hpp"
#include "support/catch.hpp"

using namespace handlaid_test;

namespace outside {

struct Times {
  using is_stage = void;
  int by = 2;
  constexpr int operator()(int value) const { return value * by; }
};
struct Plus {
  using is_stage = void;
  int summand = 1;
  constexpr int operator()(int value) const { return value + summand; }
};
struct TellThreads {
  using is_stage = void;
  int operator()(int value) const { return value; }
  int operator()(int value, const handlaid::Work& work) const { return value + 100 * work.threads; }
};
struct NoStage {
  int operator()(int value) const { return value; }
};
struct MoveOnly {
  std::unique_ptr<int> held;
};
struct Open {
  using is_stage = void;
  MoveOnly operator()(MoveOnly&& value) const { return std::move(value); }
};

}  // namespace outside

using handlaid::step;
using outside::Open;
using outside::Plus;
using outside::Times;
using handlaid::operator|;

static_assert(handlaid::Stage<Times> && handlaid::Stage<const Times&> && !handlaid::Stage<int>);
static_assert(!handlaid::Stage<outside::NoStage> && handlaid::Value<int> && !handlaid::Value<Times>);
static_assert(handlaid::Accepts<Times, int> && !handlaid::Accepts<Times, const char*>);
static_assert(!handlaid::Accepts<outside::NoStage, int>);
static_assert((4 | Times{.by = 3} | Plus{}) == 13);
static_assert((4 | (Times{.by = 3} | Plus{})) == 13);
static_assert((4 | (Times{} | (Plus{} | Times{}))) == (4 | ((Times{} | Plus{}) | Times{})));
static_assert(handlaid::Accepts<decltype(Times{} | Plus{}), int>);
static_assert(!handlaid::Accepts<decltype(Times{} | Plus{}), const char*>);

TEST_CASE("a pipeline is a value that can be kept") {
  const auto plan = Times{.by = 5} | step([](int v) { return v - 1; }) | Plus{.summand = 2};
  CHECK((2 | plan) == 11);
  CHECK(plan(2) == 11);
  CHECK((2 | (plan | Times{})) == 22);
}

TEST_CASE("values are moved through, never copied") {
  outside::MoveOnly value{std::make_unique<int>(7)};
  const auto out = std::move(value) | Open{} | step([](outside::MoveOnly v) { return v; }) | Open{};
  CHECK(*out.held == 7);
}

TEST_CASE("apply passes threads and progress to the stages that want them") {
  const auto plan = Plus{} | outside::TellThreads{} | Plus{};
  CHECK((1 | plan) == 3);
  CHECK(handlaid::apply(plan, 1, handlaid::Work{.threads = 3}) == 303);
}

TEST_CASE("progress is told to a callable, which may stop the work") {
  std::string told;
  auto tell = [&](const char* name, double done) {
    told += name;
    return done < 0.5;
  };
  const handlaid::Work work = {.progress = tell};
  CHECK(work.progress("a", 0.1));
  CHECK_FALSE(work.progress("b", 0.9));
  CHECK(told == "ab");
  CHECK(handlaid::Work{}.progress("nobody", 1));
}

TEST_CASE("bands cover everything once, and failures come back") {
  for (const int threads : {1, 2, 3, 4, 50}) {
    std::vector<int> seen(37, 0);
    handlaid::for_each_band(37, {.threads = threads}, [&](int first, int end) {
      for (int i = first; i < end; ++i) ++seen[static_cast<std::size_t>(i)];
    });
    CHECK(seen == std::vector<int>(37, 1));
    CHECK_THROWS_WITH(handlaid::for_each_band(37, {.threads = threads},
                                              [](int, int end) {
                                                if (end == 37) throw handlaid::Error::stopped("band");
                                              }),
                      contains("band: stopped"));
  }
  handlaid::for_each_band(0, {.threads = 4}, [](int first, int end) { CHECK(first == end); });
  CHECK_THROWS_WITH(handlaid::for_each_band(1, {.threads = 0}, [](int, int) {}), contains("threads"));
}
