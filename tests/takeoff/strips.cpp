#include "handlaid/takeoff/strips.hpp"

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

namespace {
struct OtherLattice {
  int column_count() const { return 1; }
  int row_count() const { return 1; }
  Size extent() const { return {}; }
  Box box(int, int) const { return {}; }
  void check() const {}
};
}  // namespace

static_assert(Accepts<Strips, Chart<>> && !Accepts<Strips, Palette>);
static_assert(LatticeLike<OtherLattice> && !Accepts<Strips, Chart<OtherLattice>>);

TEST_CASE("trade arithmetic: 167 courses are 167 strips") {  // common practice, no source
  const Chart<> chart = chart_of(std::vector<std::string>(167, std::string(100, '1')), 1, 7.5 * mm);
  const StripTakeoff takeoff = chart | Strips{};
  CHECK(takeoff.strips.size() == 167);
  CHECK(takeoff.length == 750 * mm);
  CHECK(takeoff.finished_width == 7.5 * mm);
  CHECK(takeoff.flat_width == 7.5 * mm);
  CHECK(takeoff.total_length == 125'250 * mm);
}

TEST_CASE("a strip has a section for each run, marked from the left end") {
  const StripTakeoff takeoff = chart_of({"1133", "1.22"}, 3, 12.7 * mm) | Strips{};
  REQUIRE(takeoff.strips.size() == 2);
  CHECK(takeoff.strips[0].course == 1);
  CHECK(takeoff.strips[0].sections ==
        std::vector<StripSection>{
            {.number = 1, .first_column = 1, .last_column = 1, .start = 0 * mm, .end = 12.7 * mm},
            {.number = 0, .first_column = 2, .last_column = 2, .start = 12.7 * mm, .end = 25.4 * mm},
            {.number = 2, .first_column = 3, .last_column = 4, .start = 25.4 * mm, .end = 50.8 * mm}});
  CHECK(takeoff.strips[1].course == 2);
  CHECK(takeoff.strips[1].sections.size() == 2);
}

TEST_CASE("sections of every strip join without a gap, and a strip ends with what is laid of its course") {
  const Chart<> chart = chart_of({"1213", "....", ".12.", "3331"}, 3, 7.3 * mm);
  const StripTakeoff takeoff = chart | Strips{.trim = 5 * mm};
  REQUIRE(takeoff.strips.size() == 3);  // nothing is laid in course 3
  for (const Strip& strip : takeoff.strips) {
    Length end;
    for (const StripSection& section : strip.sections) {
      CHECK(section.start == end);
      end = section.end;
    }
    CHECK(end == strip.length());
  }
  CHECK(takeoff.strips[0].length() == 29.2 * mm);
  CHECK(takeoff.strips[1].length() == 21.9 * mm);  // course 2 ends with column 3
  CHECK(takeoff.length == 34.2 * mm);
  CHECK(takeoff.total_length == (34.2 + 34.2 + 26.9) * mm);
}

TEST_CASE("a fold takes twice the width, or twice the length") {
  Chart<> chart = chart_of({"11"});
  chart.lattice.course_pitch = 8 * mm;
  const StripTakeoff lengthwise = chart | Strips{.fold = Fold::lengthwise};
  CHECK(lengthwise.flat_width == 16 * mm);
  CHECK(lengthwise.total_length == lengthwise.length);
  CHECK(lengthwise.layers() == 2);
  const StripTakeoff wide = chart | Strips{.fold = Fold::lengthwise, .finished_width = 9 * mm};
  CHECK(wide.finished_width == 9 * mm);
  CHECK(wide.flat_width == 18 * mm);
  const StripTakeoff doubled = chart | Strips{.fold = Fold::end_to_end, .trim = 10 * mm};
  CHECK(doubled.flat_width == 8 * mm);
  CHECK(doubled.total_length == doubled.length.times(2));
}

TEST_CASE("an overlap makes the strip wider, and never contradicts its width") {
  Chart<> chart = chart_of({"11"});
  chart.lattice.course_pitch = 8 * mm;
  const StripTakeoff takeoff = chart | Strips{.overlap = 3 * mm, .fastened_edge = 4 * mm};
  CHECK(takeoff.finished_width == 11 * mm);
  CHECK(takeoff.fastened_edge == 4 * mm);
  CHECK_THROWS_WITH((chart | Strips{.finished_width = 12 * mm, .overlap = 3 * mm}),
                    contains("12 mm is not the 8 mm between courses and the 3 mm of overlap; make it 11 mm"));
  CHECK_THROWS_WITH((chart | Strips{.fastened_edge = 8 * mm}), contains("fastened-edge: 8 mm of a strip that is 8 mm"));
}

TEST_CASE("glue goes under the fastened edge, or under all of a strip, and again between halves") {
  // two courses of 3 and 2 cells at 10 mm: 50 mm of strip
  const Chart<> chart = chart_of({"11.", "111"}, 1, 10 * mm);
  CHECK((chart | Strips{}).glued_mm2() == 50 * 10);
  CHECK((chart | Strips{.overlap = 6 * mm}).glued_mm2() == 50 * 16);
  CHECK((chart | Strips{.overlap = 6 * mm, .fastened_edge = 4 * mm}).glued_mm2() == 50 * 4);
  CHECK((chart | Strips{.fold = Fold::lengthwise, .overlap = 6 * mm, .fastened_edge = 4 * mm}).glued_mm2() ==
        50 * 4 * 2);
  CHECK((chart | Strips{.fold = Fold::end_to_end, .trim = 10 * mm}).glued_mm2() == 50 * 10 * 2);  // no trim
}

TEST_CASE("strips of no sense are refused") {
  const Chart<> chart = chart_of({"1"});
  CHECK_THROWS_WITH(chart | Strips{.finished_width = -1 * mm}, contains("strip-width: -1 mm"));
  CHECK_THROWS_WITH(chart | Strips{.trim = 20'000 * mm}, contains("strip-trim"));
}
