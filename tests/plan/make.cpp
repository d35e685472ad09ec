#include "handlaid/plan/make.hpp"

#include <algorithm>

#include "handlaid/files/chart_table.hpp"
#include "handlaid/files/job_file.hpp"
#include "handlaid/files/palette_table.hpp"
#include "handlaid/files/takeoff_tables.hpp"
#include "handlaid/image/write.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

/// Soft hills of colour, all channels moving.
Raster<Srgb8> hills(int width, int height) {
  Raster<Srgb8> picture(width, height);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto wave = [](int at, int length) { return std::abs(at % (2 * length) - length) * 255 / length; };
      picture(x, y) = {static_cast<std::uint8_t>(wave(x, width)), static_cast<std::uint8_t>(wave(y, height / 2 + 1)),
                       static_cast<std::uint8_t>(wave(x + y, width / 3 + 1))};
    }
  }
  return picture;
}

/// Red to the left, transparent to the right.
Raster<Srgba8> half_clear(int width, int height) {
  Raster<Srgba8> picture(width, height);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) picture(x, y) = {{200, 30, 30}, static_cast<std::uint8_t>(x < width / 2 ? 255 : 0)};
  }
  return picture;
}

const Stock felt = {.colours = {{.name = "rust", .colour = {192, 64, 32}, .packs = {{50, 495}, {500, 3'950}}},
                                {.name = "coal", .colour = {20, 20, 20}, .packs = {{50, 495}}, .in_hand = 30},
                                {.name = "sky", .colour = {120, 170, 220}, .packs = {{50, 495}}},
                                {.name = "chalk", .colour = {240, 240, 240}, .packs = {{50, 495}}}},
                    .currency = "EUR"};

bool has_note(const Plan& plan, const std::string& part) {
  return std::any_of(plan.notes.begin(), plan.notes.end(),
                     [&](const std::string& note) { return note.find(part) != note.npos; });
}

/// What a maker builds from, as bytes.
std::string tables(const Plan& plan) {
  std::string text = write_chart(plan.chart) + write_palette(plan.pieces, plan.tally);
  text += plan.order ? write_takeoff(plan.pieces, *plan.order) : write_takeoff(plan.pieces);
  if (plan.strips) text += write_strips(*plan.strips, plan.chart.palette);
  return text + write_marks(plan.marks);
}

}  // namespace

TEST_CASE("the trade's own arithmetic: 100 x 167 cells at three pieces a cell") {
  // Common practice, no source: 16,700 cells, 50,100 pieces, and 167 strips where strips are painted.
  const Raster<Srgb8> picture = hills(1000, 1670);
  const Plan pieces = make_plan({.columns = 100, .rows = 167, .pitch = 7.5 * mm, .pieces_per_cell = 3}, picture);
  CHECK(pieces.tally.laid() == 16'700);
  CHECK(pieces.pieces.pieces() == 50'100);
  CHECK(pieces.pieces.needed() > 50'100);
  CHECK(pieces.marks.board == Size{750 * mm, 1252.5 * mm});
  CHECK(!pieces.strips);

  const Plan strips = make_plan({.method = Method::strips,
                                 .columns = 100,
                                 .rows = 167,
                                 .pitch = 7.5 * mm,
                                 .strips = {.fold = Fold::lengthwise, .trim = 20 * mm}},
                                picture);
  REQUIRE(strips.strips);
  CHECK(strips.strips->strips.size() == 167);
  CHECK(strips.strips->length == 770 * mm);
  CHECK(strips.strips->flat_width == 15 * mm);  // folded: twice the 7.5 mm of a course
  CHECK(!strips.order);
  CHECK(strips.pieces.spares() == 0);
}

TEST_CASE("a plan's job makes the same plan again") {
  const Raster<Srgb8> picture = hills(300, 200);
  for (const Job& job : {Job{}, Job{.method = Method::strips}, Job{.units = LengthUnit::inches, .colours = 5},
                         Job{.board = Size{500 * mm, 410 * mm}, .contrast = 20, .saturation = -30},
                         Job{.locks = {{.colour = {1, 2, 3}}}, .dither = DitherChoice::diffuse_atkinson}}) {
    const Plan once = make_plan(job, picture);
    const Plan again = make_plan(read_job(write_job(once.job), "plan.job"), picture);
    CHECK(tables(again) == tables(once));
    CHECK(again.job == once.job);
    CHECK(again.reasons.empty());
  }
  const Plan once = make_plan({}, picture, felt);
  CHECK(tables(make_plan(once.job, picture, felt)) == tables(once));
}

TEST_CASE("threads change nothing") {
  const Raster<Srgb8> picture = hills(641, 433);
  const Job job = {.columns = 80, .contrast = 10, .dither = DitherChoice::ordered_bayer};
  const std::string one = tables(make_plan(job, picture, {}, Work{.threads = 1}));
  CHECK(tables(make_plan(job, picture, {}, Work{.threads = 2})) == one);
  CHECK(tables(make_plan(job, picture, {}, Work{.threads = 4})) == one);
}

TEST_CASE("an embedder's own memory is planned without a copy of it") {
  Raster<Srgb8> picture = hills(300, 200);
  const auto part = view(picture.pixels().data(), 200, 200, 300);
  const Plan borrowed = make_plan({.columns = 40}, part);
  CHECK(borrowed.picture_width == 200);
  CHECK(tables(borrowed) == tables(make_plan({.columns = 40}, picture | Crop{.width = 200, .height = 200})));
}

TEST_CASE("a small picture of few colours is laid pixel by pixel, each in its very colour") {
  Raster<Srgb8> picture(8, 6);
  const Srgb8 colours[] = {{0, 0, 0}, {250, 10, 10}, {7, 130, 240}};
  for (int y = 0; y < 6; ++y) {
    for (int x = 0; x < 8; ++x) picture(x, y) = colours[(x * y + x) % 3];
  }
  const Plan plan = make_plan({}, picture);
  CHECK(plan.chart.columns() == 8);
  CHECK(plan.chart.courses() == 6);
  for (int y = 0; y < 6; ++y) {
    for (int x = 0; x < 8; ++x) CHECK(plan.chart.palette[plan.chart.numbers(x, y)].colour == picture(x, y));
  }
  CHECK_THAT(plan.mean_difference, WithinAbs(0, 0.01));
  // Fewer colours than the 16 that are proposed: no error, a line.
  CHECK(plan.chart.palette.size() == 3);
  CHECK(has_note(plan, "Asked for 16 colours; the picture has only 3."));
}

TEST_CASE("transparent parts stay empty, or get a ground") {
  const Raster<Srgba8> picture = half_clear(40, 20);
  const Plan open = make_plan({}, picture);
  CHECK(open.tally.laid() == 400);
  CHECK(open.tally.cells[0] == 400);
  CHECK(open.chart.palette.size() == 1);

  const Plan filled = make_plan({.ground = Srgb8{30, 30, 200}}, picture);
  CHECK(filled.tally.laid() == 800);
  CHECK(filled.chart.palette.size() == 2);
  CHECK(filled.chart.palette[filled.chart.numbers(39, 0)].colour == Srgb8{30, 30, 200});

  const Job left = {.crop = CropBox{0, 0, 20, 20}, .ground = Srgb8{30, 30, 200}};
  CHECK_THROWS_WITH(make_plan(left, picture), contains("ground: it has no effect"));
  CHECK_THROWS_WITH(make_plan({.ground = Srgb8{}}, hills(40, 20)), contains("ground: it has no effect"));
  CHECK_THROWS_WITH(make_plan({.crop = CropBox{20, 0, 40, 20}}, picture), contains("transparent everywhere"));
}

TEST_CASE("a named colour can be made transparent, and be replaced") {
  Raster<Srgb8> picture(40, 20);
  for (int y = 0; y < 20; ++y) {
    for (int x = 0; x < 40; ++x) picture(x, y) = x < 20 ? Srgb8{200, 30, 30} : Srgb8{250, 254, 251};
  }
  const Plan open = make_plan({.clear_colour = Srgb8{255, 255, 255}}, picture);
  CHECK(open.tally.laid() == 400);
  CHECK(open.job.clear_tolerance == 0.05);
  CHECK(make_plan({.clear_colour = Srgb8{255, 255, 255}, .ground = Srgb8{1, 2, 3}}, picture).tally.laid() == 800);
  CHECK_THROWS_WITH(make_plan({.clear_colour = Srgb8{0, 255, 0}}, picture),
                    contains("clear-colour: it has no effect: this part of the picture has nothing like #00ff00"));
  CHECK_THROWS_WITH(make_plan({.clear_colour = Srgb8{255, 255, 255}, .clear_tolerance = 0.0}, picture),
                    contains("clear-colour: it has no effect"));
}

TEST_CASE("with a stock the colours are its own, and what is missing is ordered") {
  const Plan plan = make_plan({.columns = 30, .colours = 3, .locks = {{.name = "coal"}}, .pieces_per_cell = 2},
                              hills(300, 200), felt);
  CHECK(plan.chart.palette.size() == 3);
  CHECK(plan.chart.palette[1].name == "coal");
  for (const PaletteEntry& entry : plan.chart.palette.entries) {
    const StockColour* item = felt.find(entry.name);
    REQUIRE(item != nullptr);
    CHECK(item->colour == entry.colour);
  }
  REQUIRE(plan.order);
  CHECK(plan.order->currency == "EUR");
  for (const OrderLine& line : plan.order->lines) {
    const PieceLine& pieces = plan.pieces.lines[static_cast<std::size_t>(line.number) - 1];
    CHECK(line.needed == pieces.needed());
    CHECK(line.from_hand + line.bought >= line.needed);
    CHECK(line.from_hand <= (line.name == "coal" ? 30 : 0));
  }

  Stock paints = felt;
  for (StockColour& paint : paints.colours) paint = {.name = paint.name, .colour = paint.colour};
  const Plan painted = make_plan({.method = Method::strips}, hills(300, 200), paints);
  CHECK(painted.chart.palette.size() == 4);
  CHECK(!painted.order);
  CHECK(!make_plan({}, hills(300, 200), paints).order);
  CHECK_THROWS_WITH(make_plan({.method = Method::strips}, hills(300, 200), felt),
                    contains("stock: its packs hold pieces, and strips are painted"));
}

TEST_CASE("a board larger than the cells leaves margins on all sides") {
  const Plan plan =
      make_plan({.board = Size{520 * mm, 420 * mm}, .columns = 50, .rows = 40, .pitch = 10 * mm}, hills(300, 200));
  CHECK(plan.marks.margin_x == 10 * mm);
  CHECK(plan.marks.margin_y == 10 * mm);
  CHECK(plan.marks.across.front() == 10 * mm);
  CHECK(plan.marks.across.back() == 510 * mm);
  // A pitch in inches is kept to the micrometre: 72 times 7/16 in come out 0.036 mm longer than the board.
  const Plan inches =
      make_plan({.units = LengthUnit::inches, .board = Size{31.5 * inch, 24 * inch}, .columns = 72}, hills(300, 200));
  CHECK(inches.marks.margin_x == Length{});
  CHECK(inches.marks.board.width == inches.chart.lattice.extent().width);
}

TEST_CASE("tone is applied to the cells") {
  const Plan grey = make_plan({.saturation = -100}, hills(300, 200));
  for (const PaletteEntry& entry : grey.chart.palette.entries) {
    CHECK(std::abs(entry.colour.r - entry.colour.g) <= 1);
    CHECK(std::abs(entry.colour.r - entry.colour.b) <= 1);
  }
}

TEST_CASE("notes say what a maker should know before buying") {
  const Plan small = make_plan({.columns = 60, .rows = 40}, hills(30, 20));
  CHECK(has_note(small, "has only 30 x 20 pixels for 60 x 40 cells"));
  const Plan stretched = make_plan({.columns = 50, .rows = 40, .crop = CropBox{0, 0, 240, 200}}, hills(300, 200));
  CHECK(has_note(stretched, "The panel is 4.1 % wider than the crop"));
  // A locked colour that is nowhere near the picture is in no cell, and two nearly equal ones are named.
  const Job locked = {.locks = {{.colour = {0, 255, 255}}, {.colour = {0, 254, 254}}}};
  const Plan unused = make_plan(locked, half_clear(40, 20));
  CHECK(has_note(unused, "Colours 1 and 2 are in no cell"));
  CHECK(has_note(unused, "easily mixed up (CIEDE2000 below 5): 1 and 2."));
}

TEST_CASE("what was made of the picture's profile is the first note") {
  const std::string png = write_png(hills(60, 40));
  const auto plan_with = [&](const std::string& chunk, const std::string& body) {
    std::string changed = png.substr(0, 33);  // the signature and the header
    detail::put_png_chunk(changed, chunk, body);
    changed += png.substr(33);
    return make_plan({}, std::vector<unsigned char>(changed.begin(), changed.end()));
  };
  // The code points of ITU-T H.273: wide primaries; of another curve; of sRGB.
  const Plan wide = plan_with("cICP", std::string("\x0c\x0d\0\1", 4));
  REQUIRE(!wide.notes.empty());
  CHECK_THAT(wide.notes.front(), contains("profile \"cICP chunk 12/13/0/1\" was used"));
  const Plan unknown = plan_with("cICP", std::string("\x0c\x10\0\1", 4));
  CHECK_THAT(unknown.notes.front(), contains("was not used: its code points are not known here. sRGB was assumed"));
  const Plan same = plan_with("cICP", std::string("\1\x0d\0\1", 4));
  CHECK(!has_note(same, "profile"));
  CHECK(tables(same) == tables(unknown));
  CHECK(tables(same) != tables(wide));
}

TEST_CASE("the thumbnail is the whole picture, small") {
  const Plan wide = make_plan({.crop = CropBox{0, 0, 300, 200}}, hills(2500, 1000));
  CHECK(wide.thumbnail.width() == 1000);
  CHECK(wide.thumbnail.height() == 400);
  CHECK(make_plan({}, hills(30, 20)).thumbnail == hills(30, 20));
  CHECK(make_plan({}, half_clear(40, 20)).thumbnail(39, 0) == Srgb8{255, 255, 255});
}

TEST_CASE("bytes that are no picture, and options that cannot be, are refused before any work") {
  const std::vector<unsigned char> text = {'h', 'e', 'l', 'l', 'o'};
  CHECK_THROWS_WITH(make_plan({}, text, "cat.jpg"), contains("cat.jpg: "));
  CHECK_THROWS_WITH(make_plan({}, std::vector<unsigned char>{}, "cat.jpg"), contains("cat.jpg: "));
}

TEST_CASE("the work stops when it is told to") {
  int calls = 0;
  auto stop = [&](const char*, double) { return ++calls < 2; };
  CHECK_THROWS_WITH(make_plan({}, hills(300, 200), {}, Work{.progress = stop}), contains("stopped as asked"));
}

TEST_CASE("rules of the palette reach the chart") {
  const auto picture = hills(300, 200);
  const Job plain = {.columns = 60, .colours = 8};
  const Plan free = make_plan(plain, picture);
  Job job = plain;
  job.forbidden = {{.colour = free.chart.palette[3].colour}};
  job.exact_locks = {{.colour = {255, 0, 255}}};
  const Plan ruled = make_plan(job, picture);
  CHECK(ruled.chart.palette.size() == 8);
  CHECK(ruled.chart.palette[1].colour == Srgb8{255, 0, 255});
  CHECK(ruled.tally.cells[1] == 0);  // no cell has that very colour
  for (const PaletteEntry& entry : ruled.chart.palette.entries) CHECK(entry.colour != free.chart.palette[3].colour);
  CHECK(make_plan(ruled.job, picture).chart.numbers.pixels().size() == ruled.chart.numbers.pixels().size());

  const Plan apart = make_plan({.columns = 60, .colours = 8, .least_distance = 0.5}, picture);
  CHECK(apart.chart.palette.size() < 8);
  CHECK(has_note(apart, "far enough"));

  Job common = {.columns = 60, .colours = 90, .least_cells = 20};
  for (const std::int64_t cells : make_plan(common, picture).tally.cells) CHECK((cells == 0 || cells >= 20));
  common.least_cells.reset();
  const Plan rare = make_plan(common, picture);
  CHECK(std::any_of(rare.tally.cells.begin() + 1, rare.tally.cells.end(),
                    [](auto cells) { return cells > 0 && cells < 20; }));

  CHECK_THROWS_WITH(make_plan({.forbidden = {{.name = "pink"}}}, picture, felt),
                    contains("forbid: the stock has no pink"));
  CHECK_THROWS_WITH(make_plan({.exact_locks = {{.name = "pink"}}}, picture),
                    contains("lock-exact: \"pink\" is a name"));
}

TEST_CASE("what an importance picture makes light is met better") {
  const auto picture = hills(300, 200);
  const auto error_in = [&](const Plan& plan, int first, int end) {
    const auto cells = picture | convert<Oklab> | map_to(plan.chart.lattice);
    double sum = 0;
    for (int y = 0; y < cells.rows(); ++y) {
      for (int x = first; x < end; ++x) {
        const auto colour = convert_colour<Oklab>(plan.chart.palette[plan.chart.numbers(x, y)].colour);
        sum += squared_distance(cells.colours(x, y).fixed(), colour.fixed());
      }
    }
    return sum;
  };
  Raster<Srgb8> importance(300, 200);
  for (int y = 0; y < 200; ++y) {
    for (int x = 0; x < 300; ++x) importance(x, y) = x < 100 ? Srgb8{255, 255, 255} : Srgb8{16, 16, 16};
  }
  const Job job = {.columns = 60, .rows = 40, .colours = 6, .importance = "importance.png"};
  Job plain = job;
  plain.importance.reset();
  const Plan all = make_plan(plain, picture);
  const Plan left = make_plan(job, picture, {}, {}, {}, importance);
  CHECK(error_in(left, 0, 20) < 0.8 * error_in(all, 0, 20));
  CHECK(error_in(left, 20, 60) > error_in(all, 20, 60));

  CHECK_THROWS_WITH(make_plan(job, picture, {}, {}, {}, Raster<Srgb8>(300, 199)), contains("as large as the picture"));
  CHECK_THROWS_WITH(make_plan(job, picture, {}, {}, {}, Raster<Srgb8>(300, 200)), contains("make light what matters"));
  CHECK_THROWS_WITH(make_plan(job, picture), contains("give both or neither"));
  CHECK_THROWS_WITH(make_plan(plain, picture, {}, {}, {}, importance), contains("give both or neither"));
}

TEST_CASE("clear numbers change the numbers and nothing that is seen") {
  const Raster<Srgb8> picture = hills(300, 200);
  const Job job = {.columns = 30, .rows = 20, .pitch = 11 * mm, .colours = 9, .dither = DitherChoice::none};
  Job clear_job = job;
  clear_job.numbering = Numbering::clear;
  const Plan plan = make_plan(job, picture);
  const Plan clear = make_plan(clear_job, picture);
  REQUIRE(plan.chart.palette != clear.chart.palette);
  for (std::size_t i = 0; i < plan.chart.numbers.size(); ++i) {
    REQUIRE(plan.chart.palette[plan.chart.numbers.pixels()[i]] == clear.chart.palette[clear.chart.numbers.pixels()[i]]);
  }
  CHECK(clear.pieces.pieces() == plan.pieces.pieces());
  CHECK(clear.tally == tally(clear.chart));
  CHECK(tables(make_plan(clear.job, picture)) == tables(clear));
}
