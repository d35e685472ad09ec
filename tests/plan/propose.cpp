#include "handlaid/plan/propose.hpp"

#include <cmath>
#include <limits>

#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

/// A picture of the demo's size.
constexpr int width = 451;
constexpr int height = 300;

const Stock felt = {.colours = {{.name = "rust", .colour = {192, 64, 32}, .packs = {{50, 495}}},
                                {.name = "coal", .colour = {20, 20, 20}, .packs = {{50, 495}}},
                                {.name = "chalk", .colour = {240, 240, 240}, .packs = {{50, 495}}}},
                    .currency = "EUR"};

std::string reason(const Proposal& proposal, const std::string& word) {
  for (const Reason& reason : proposal.reasons) {
    if (reason.word == word) return reason.value + ": " + reason.sentence;
  }
  return "";
}

}  // namespace

TEST_CASE("a proposal is complete: proposing from it changes nothing and needs no reason") {
  const std::vector<Job> jobs = {
      {},
      {.picture = "a/cat.png"},
      {.units = LengthUnit::inches},
      {.method = Method::strips},
      {.board = Size{800 * mm, 600 * mm}},
      {.method = Method::strips, .board = Size{797 * mm, 613 * mm}},
      {.units = LengthUnit::inches, .board = Size{31.5 * inch, 24 * inch}},
      {.units = LengthUnit::inches, .board = Size{31.5 * inch, 24 * inch}, .columns = 72},
      {.columns = 72},
      {.rows = 31, .pitch = 0.5 * inch},
      {.columns = 72, .rows = 96, .pitch = 11 * mm},
      {.columns = 72, .pitch = 11 * mm, .course_pitch = 7 * mm},
      {.columns = 72, .crop = CropAspect{3, 4, CropFocus{240, 150}}},
      {.crop = CropBox{122, 0, 347, 300}, .brightness = 0, .contrast = 20},
      {.locks = {{.colour = {1, 2, 3}}}, .dither = DitherChoice::ordered_bayer},
      {.colours = 1, .locks = {{.colour = {1, 2, 3}}}},
      {.spares = 0.0},
      {.spares = 1.0 / 3, .spares_confidence = 0.987654321987},
  };
  for (const Job& job : jobs) {
    const Proposal once = propose(job, width, height);
    INFO(write_job(once.job));
    const Proposal twice = propose(once.job, width, height);
    CHECK(twice.job == once.job);
    CHECK(twice.reasons.empty());
    CHECK(twice.cells == once.cells);
    CHECK(twice.crop == once.crop);
    // The same by way of the file, which is all that a maker keeps.
    CHECK(read_job(write_job(once.job), "job") == once.job);
    for (const Reason& reason : once.reasons) CHECK(reason.sentence.ends_with("."));
  }
}

TEST_CASE("with a picture alone the rest is proposed") {
  const Proposal proposal = propose({.picture = "photos/cat.png"}, width, height);
  CHECK(proposal.job.title == "cat");
  CHECK(proposal.job.method == Method::pieces);
  CHECK(proposal.cells == Rectangular{.columns = 100, .rows = 67, .pitch = 10 * mm});
  CHECK(proposal.job.colours == 16);
  CHECK_FALSE(proposal.job.dither);  // for that there must be cells to look at
  CHECK(proposal.job.viewing_distance == 2'500 * mm);
  CHECK_THAT(reason(proposal, "viewing-distance"), contains("Across a room"));
  CHECK_THAT(reason(proposal, "board"), contains("1000 mm x 670 mm: As large as the cells"));
  CHECK_THAT(reason(proposal, "spares-confidence"), contains("99 %"));
}

TEST_CASE("boards of everyday sizes are filled with whole cells that a rule shows") {
  const auto on_board = [](Length wide, Length high, LengthUnit unit) {
    return propose({.units = unit, .board = Size{wide, high}}, 4000, 3000).cells;
  };
  CHECK(on_board(800 * mm, 600 * mm, LengthUnit::millimetres) == Rectangular{80, 60, 10 * mm});
  CHECK(on_board(750 * mm, 1250 * mm, LengthUnit::millimetres).extent() == Size{750 * mm, 1250 * mm});
  CHECK(on_board(31.5 * inch, 24 * inch, LengthUnit::inches) == Rectangular{84, 64, 0.375 * inch});
  for (int wide = 300; wide <= 2000; wide += 37) {
    for (int high = 300; high <= 1500; high += 41) {
      const Rectangular cells = on_board(wide * mm, high * mm, LengthUnit::millimetres);
      const Size extent = cells.extent();
      const int count = cells.columns * cells.rows;
      INFO(wide << " x " << high << ": " << cells.columns << " x " << cells.rows);
      // A panel of 300 x 300 mm has no room for 4,000 cells of 4 mm; nothing here needs cells above 50 mm.
      CHECK((count >= 4'000 || cells.pitch <= 4.5 * mm));
      CHECK(count <= 10'000);
      CHECK(extent.width <= wide * mm);
      CHECK(extent.height <= high * mm);
      CHECK(extent.width + cells.pitch > wide * mm);
      CHECK(extent.height + cells.pitch > high * mm);
    }
  }
}

TEST_CASE("what is given decides the rest") {
  CHECK(propose({.columns = 72}, width, height).cells == Rectangular{72, 48, 13 * mm});
  CHECK(propose({.rows = 48}, width, height).cells == Rectangular{72, 48, 13 * mm});
  CHECK(propose({.columns = 72, .pitch = 11 * mm}, width, height).cells == Rectangular{72, 48, 11 * mm});
  CHECK(propose({.columns = 72, .crop = CropAspect{3, 4, {}}}, width, height).cells == Rectangular{72, 96, 10 * mm});
  CHECK(propose({.columns = 72, .crop = CropBox{122, 0, 347, 300}}, width, height).cells ==
        Rectangular{72, 96, 10 * mm});
  CHECK(propose({.board = Size{700 * mm, 800 * mm}, .columns = 72}, width, height).cells ==
        Rectangular{72, 82, 9.7 * mm});
  CHECK(propose({.board = Size{700 * mm, 800 * mm}, .pitch = 9 * mm}, width, height).cells ==
        Rectangular{77, 88, 9 * mm});
  // Cells twice as high as wide: half the rows.
  CHECK(propose({.columns = 72, .pitch = 10 * mm, .course_pitch = 20 * mm}, width, height).cells ==
        Rectangular{72, 24, 10 * mm, 20 * mm});
  // 72 pitches of 7/16 in, kept as 11.113 mm, are 0.036 mm longer than 31 1/2 in: rounding, no contradiction.
  CHECK(propose({.units = LengthUnit::inches, .board = Size{31.5 * inch, 24 * inch}, .columns = 72}, width, height)
            .cells == Rectangular{72, 54, 0.4375 * inch});
}

TEST_CASE("small pictures get a cell for each pixel") {
  CHECK(propose({}, 40, 30).cells == Rectangular{40, 30, 25 * mm});
  CHECK(propose({}, 40, 30).crop == CropBox{0, 0, 40, 30});
  CHECK(propose({}, 1, 1).cells == Rectangular{1, 1, 25 * mm});
}

TEST_CASE("the crop has the shape of the panel") {
  const auto crop = [](const Job& job) { return propose(job, width, height).crop; };
  CHECK(crop({.columns = 72, .rows = 96}) == CropBox{113, 0, 338, 300});
  CHECK(crop({.columns = 72, .rows = 96, .crop = CropAspect{3, 4, CropFocus{240, 150}}}) == CropBox{128, 0, 353, 300});
  CHECK(crop({.columns = 72, .rows = 96, .crop = CropAspect{3, 4, CropFocus{0, 0}}}) == CropBox{0, 0, 225, 300});
  CHECK(crop({.columns = 72, .rows = 96, .crop = CropBox{122, 0, 347, 300}}) == CropBox{122, 0, 347, 300});
  // Three rows of cells cannot have the shape 3:4 exactly; rounding to whole cells is no contradiction.
  CHECK_NOTHROW(crop({.rows = 3, .crop = CropBox{0, 0, 225, 300}}));
}

TEST_CASE("contradictions are refused with both sides and what would work") {
  const auto said = [](const Job& job) {
    try {
      propose(job, width, height);
      return std::string("nothing");
    } catch (const Error& error) {
      CHECK(error.kind() == Error::Kind::option);
      return std::string(error.what());
    }
  };
  CHECK(said({.board = Size{700 * mm, 1100 * mm}, .columns = 72, .rows = 96, .pitch = 11 * mm}) ==
        "board: 72 columns at 11 mm are 792 mm wide, the board 700 mm; give at most 63 columns, a pitch of at most "
        "9.7 mm, or a board of 792 mm");
  CHECK_THAT(said({.board = Size{800 * mm, 1000 * mm}, .columns = 72, .rows = 96, .pitch = 11 * mm}),
             contains("board: 96 rows at 11 mm are 1056 mm high, the board 1000 mm; give at most 90 rows"));
  CHECK_THAT(said({.board = Size{20 * mm, 20 * mm}, .pitch = 30 * mm}),
             contains("board: 1 columns at 30 mm are 30 mm wide, the board 20 mm; give a pitch of at most 20 mm"));
  CHECK_THAT(said({.columns = 72, .rows = 96, .crop = CropBox{122, 0, 447, 300}}),
             contains("crop: 122,0,447,300 does not have the shape of the panel, 72 x 96 cells or 720 x 960 mm; give "
                      "a crop like 113,0,338,300"));
  CHECK_THAT(said({.board = Size{800 * mm, 800 * mm}, .crop = CropAspect{3, 4, {}}}), contains("crop: 3:4 does not"));
  CHECK_THAT(said({.crop = CropBox{0, 0, 452, 300}}),
             contains("crop: 0,0,452,300 is not inside the picture; the picture is 451 x 300 pixels"));
  CHECK_THAT(said({.crop = CropAspect{3, 4, CropFocus{451, 0}}}), contains("has its place outside the picture"));
  CHECK_THAT(said({.course_pitch = 11 * mm}), contains("course-pitch: it says nothing without the pitch"));
  CHECK_THAT(said({.locks = {{.name = "rust"}}}), contains("lock: \"rust\" is a name, and there is no stock"));
  CHECK_THAT(said({.dither_strength = 0.5}), contains("dither-strength: it has no effect"));
  CHECK_THAT(said({.pitch = 0.1 * mm, .viewing_distance = 20'000 * mm}), contains("more than 100,000 times the pitch"));
}

TEST_CASE("a job made in code is checked like one from a file") {
  const auto refused = [](const Job& job, const char* message) {
    CHECK_THROWS_WITH(propose(job, width, height), contains(message));
  };
  refused({.columns = 0}, "columns: 0 is out of range; give 1 to 100000");
  refused({.columns = 1'000'000}, "columns: 1000000 is out of range");
  refused({.pitch = Length::from_um(-1000)}, "pitch: \"-1 mm\" is not a length");
  refused({.colours = 0}, "colours: 0 is out of range; give 1 to 999 colours");
  refused({.colours = 1000}, "colours: 1000 is out of range");
  refused({.spares = std::numeric_limits<double>::quiet_NaN()}, "spares: ");
  refused({.spares = -0.1}, "spares: ");
  refused({.pieces_per_cell = 0}, "pieces-per-cell: 0 is out of range");
  refused({.columns = 100'000, .rows = 100'000, .pitch = 1 * mm}, "at most 100 million cells");
  CHECK_THROWS_WITH(propose({}, 0, 0), contains("picture: it has no pixels"));
  CHECK_THROWS_WITH(propose({}, 1, 10'000), contains("picture: 1 x 10000 pixels are too narrow"));
  CHECK_NOTHROW(propose({.columns = 1, .rows = 10}, 1, 10'000));
}

TEST_CASE("a stock bounds the colours and knows the names") {
  const Proposal proposal = propose({.locks = {{.name = "coal"}}}, width, height, &felt);
  CHECK(proposal.job.colours == 3);
  CHECK(!proposal.job.fitter);
  CHECK_THROWS_WITH(propose({.colours = 4}, width, height, &felt),
                    "colours: 4 are more than the 3 of the stock; give at most 3");
  CHECK_THROWS_WITH(propose({.locks = {{.name = "rost"}}}, width, height, &felt),
                    contains("lock: the stock has no rost"));
  CHECK_THROWS_WITH(propose({.locks = {{.colour = {1, 1, 1}}}}, width, height, &felt),
                    contains("lock: the stock has no #010101"));
}

TEST_CASE("the method of strips has spare strips") {
  const Proposal proposal = propose({.method = Method::strips}, width, height);
  CHECK(proposal.job.spares == 0.03);
  CHECK(proposal.job.spares_confidence == 0.99);
  CHECK_THAT(reason(proposal, "spares"), contains("Strips tear"));
  CHECK(!propose({.method = Method::strips, .spares = 0.0}, width, height).job.spares_confidence);
}
