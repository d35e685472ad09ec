#include "handlaid/plan/quality.hpp"

#include "handlaid/plan/make.hpp"
#include "support/catch.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

std::string reason(const Plan& plan, const std::string& word) {
  for (const Reason& one : plan.reasons) {
    if (one.word == word) return one.sentence;
  }
  return {};
}

bool has_note(const Plan& plan, const std::string& part) {
  for (const std::string& note : plan.notes) {
    if (note.find(part) != note.npos) return true;
  }
  return false;
}

/// A photo of tests/data/cells, planned a cell a pixel, 8 colours, seen from so many pitches.
Plan photo(const std::string& name, int pitches, std::optional<DitherChoice> dither = {}) {
  return make_plan({.pitch = 7.5 * mm, .colours = 8, .dither = dither, .viewing_distance = (7.5 * mm).times(pitches)},
                   read_pnm("cells/" + name + ".ppm"));
}

}  // namespace

TEST_CASE("a dither is recommended only where it looks two percent better") {
  const auto looks = [](std::int64_t none, std::int64_t diffusion, std::int64_t bayer) {
    return std::vector<DitherLook>{{DitherChoice::none, 1, {none, 0}},
                                   {DitherChoice::diffuse_floyd_steinberg, 1, {diffusion, 0}},
                                   {DitherChoice::ordered_bayer, 1, {bayer, 0}}};
  };
  CHECK(recommended(looks(1'000, 981, 981)).dither == DitherChoice::none);
  CHECK(recommended(looks(1'000, 980, 980)).dither == DitherChoice::diffuse_floyd_steinberg);
  CHECK(recommended(looks(1'000, 980, 979)).dither == DitherChoice::ordered_bayer);
  CHECK(recommended(looks(0, 0, 0)).dither == DitherChoice::none);
}

TEST_CASE("an open dither is the one that looks best from the viewing distance, and the reason has the figures") {
  for (const char* name : {"astronaut", "rocket"}) {
    for (const int pitches : {333, 3'000}) {
      const Plan plan = photo(name, pitches);
      INFO(name << " " << pitches);
      REQUIRE(plan.quality.dithers.size() == choice_words<DitherChoice>.size());
      const DitherLook& chosen = plan.quality.dithers[static_cast<std::size_t>(*plan.job.dither)];
      CHECK(chosen.seen == plan.quality.seen);
      for (const DitherLook& look : plan.quality.dithers) {
        // the same figure by another road: the plan that was asked for with it
        CHECK(chosen.seen.mean_steps * 98 <= look.seen.mean_steps * 100);
      }
      CHECK_THAT(reason(plan, "dither"), contains(pitches == 333 ? "333 times the pitch" : "3,000 times the pitch"));
      CHECK_FALSE(has_note(plan, "Asked for is"));
    }
    // From across a room mixing by neighbouring cells is no help.
    CHECK(photo(name, 333).job.dither == DitherChoice::none);
  }
}

TEST_CASE("a dither that looks worse is never laid silently, and the job that a plan gives is laid again as it was") {
  const Plan asked = photo("coffee", 333, DitherChoice::diffuse_floyd_steinberg);
  CHECK(asked.job.dither == DitherChoice::diffuse_floyd_steinberg);
  CHECK(has_note(asked,
                 "Asked for is floyd-steinberg, but seen from 2.5 m, 333 times the pitch, it looks worse than "
                 "no dither: an error of "));
  CHECK_FALSE(has_note(photo("coffee", 333, DitherChoice::none), "Asked for"));
  const Plan far = photo("astronaut", 3'000);
  CHECK(far.job.dither != DitherChoice::none);
  CHECK(far.job.dither_strength == 1.0);
  const Plan again = make_plan(far.job, read_pnm("cells/astronaut.ppm"));
  CHECK(again.chart == far.chart);
  CHECK(again.reasons.empty());
  CHECK(has_note(photo("astronaut", 3'000, DitherChoice::none), "Asked for is no dither, but seen from 22.5 m"));
}

TEST_CASE("the quality of a plan: worst cells, squared errors, likeness, and stability where it is asked for") {
  const Raster<Srgb8> picture = read_pnm("cells/chelsea.ppm");
  const Job job = {.columns = 50, .colours = 6};
  const Plan plan = make_plan(job, picture, {}, {}, {.stability = true});
  const PlanQuality& quality = plan.quality;
  CHECK(quality.worst.size() == 20);
  CHECK(quality.worst_seen.size() == 20);
  CHECK(quality.worst[0].difference() > plan.high_difference);
  CHECK(quality.worst[0].difference_steps >= quality.worst[19].difference_steps);
  CHECK(quality.squared.oklab > 0);
  CHECK(quality.squared.srgb > 0);
  CHECK(quality.similarity > 0.3);
  CHECK(quality.similarity < 1);
  REQUIRE(quality.stability);
  CHECK(quality.stability->one_colour_more > 0);
  CHECK(quality.stability->cropped < 10);
  CHECK_FALSE(make_plan(job, picture).quality.stability);
  const Plan threads = make_plan(job, picture, {}, {.threads = 3}, {.stability = true});
  CHECK(threads.quality.dithers == quality.dithers);
  CHECK(threads.quality.worst == quality.worst);
}

TEST_CASE("of a panel larger than 500 cells along the middle is looked at, and places are those of the whole") {
  Raster<Srgb8> picture(700, 20);
  for (Srgb8& pixel : picture.pixels()) pixel = {100, 100, 100};
  picture(320, 4) = {255, 0, 0};
  const Job job = {.columns = 700, .rows = 20, .pitch = 5 * mm, .colours = 1, .dither = DitherChoice::none};
  const Plan plan = make_plan(job, picture);
  CHECK(plan.quality.part.columns() == 500);
  CHECK(plan.quality.worst[0].column == 321);
  CHECK(plan.quality.worst[0].course == 16);
  CHECK(plan.quality.worst_seen[0].column == 321);
  CHECK(plan.quality.worst_seen[0].course == 16);
}
