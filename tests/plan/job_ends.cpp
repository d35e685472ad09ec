// Every number of a job at both ends of its range, on a small chart: a plan of the workshop or one line that says why
// not; never a crash or numbers that ran over.
#include <optional>
#include <string>

#include "handlaid/files/job_file.hpp"
#include "handlaid/plan/fabrication.hpp"
#include "handlaid/takeoff/strip_spares.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;

namespace {

/// A number of the word as text: `JobField::value` tells which kind it is.
std::string at_end(const JobField& field, std::int64_t number) {
  const std::string kind = field.value;
  if (kind == "N" || kind == "PERCENT" || kind == "1|2") return std::to_string(number);
  if (kind == "LENGTH") return value_text(Length::from_um(number), LengthUnit::millimetres);
  if (kind == "WIDTHxHEIGHT") {
    return value_text(Size{Length::from_um(number), Length::from_um(number)}, LengthUnit::millimetres);
  }
  if (kind == "SHARE") return value_text(static_cast<double>(number) / 1e6, {});
  if (kind == "NUMBER") return decimal_value_text(static_cast<double>(number) / 1e3);
  if (kind == "AMOUNT") return decimal_value_text(static_cast<double>(number) / 1e3) + " pieces";
  if (kind == "THICKNESS x N") return value_text(Length::from_um(number), LengthUnit::millimetres) + " x 1000";
  return "";
}

/// What the amounts of a plan may never be: below nothing.
void check_amounts(const Fabrication& made) {
  if (made.rolls) CHECK((made.rolls->rolls >= 0 && made.rolls->mass_g >= 0 && made.rolls->bought_mm2 >= 0));
  if (made.paint) CHECK((made.paint->ml() >= 0 && made.paint->primer_ml >= 0));
  if (made.paint) {
    for (const PaintLine& line : made.paint->lines) CHECK((line.spare_ml >= 0 && line.trial_ml >= 0));
  }
  if (made.frame) CHECK((made.frame->timber_mm3 >= 0 && made.frame->screws >= 0));
  if (made.cutting) CHECK((made.cutting->cuts >= 0 && made.cutting->total >= Length{}));
  if (made.schedule) {
    for (const PaintWay& way : made.schedule->ways) CHECK((way.work_s >= 0 && way.days >= 0 && way.openings >= 0));
  }
  if (made.sheets) CHECK(made.sheets->sheets > 0);
  CHECK((made.growth.width >= Length{} && made.growth.height >= Length{}));
  CHECK((made.weight.total_g >= 0 && made.weight.persons >= 1));
  CHECK((made.hanging.load_per_point_g >= 0 && made.hanging.rated_g >= made.hanging.load_per_point_g));
  CHECK((made.hanging.wire_pull_g >= 0 && made.hanging.top_height > made.hanging.centre_height));
  for (const ConsumableLine& line : made.consumables) CHECK(line.amount >= 0);
  CHECK(made.labour.seconds() >= 0);
  for (const CostLine& line : made.cost.lines) CHECK((line.cost_hundredths >= 0 && line.left_over_hundredths >= 0));
}

/// Counts and reckons; an Error is an answer too.
bool reckoned(const Job& job, Length pitch) {
  const Chart<> chart = chart_of({"112233", "1.2.3.", "332211", "......", "121212"}, 3, pitch);
  try {
    const Tally counts = chart | tally;
    PieceTakeoff pieces = Pieces{.per_cell = job.pieces_per_cell.value_or(1)}.from_tally(counts, chart.palette);
    std::optional<StripTakeoff> strips;
    std::optional<Order> order;
    Stock stock{.currency = "EUR"};
    for (const PaletteEntry& entry : chart.palette.entries) {
      stock.colours.push_back({.name = entry.name, .colour = entry.colour, .packs = {{250, 1190}, {40, 250}}});
    }
    if (job.method == Method::strips) {
      const StripSpares spares{.loss = job.spares.value_or(0.03), .confidence = job.spares_confidence.value_or(0.99)};
      strips = chart | job.strips | TrialStrips{chart | job.pilot} | spares;
      stock.unit = StockUnit::millilitres;
      order = paint_needs(*strips | job.painting, chart.palette) | choose_packs(stock);
    } else {
      const Spares spares{.loss = job.spares.value_or(0.03),
                          .confidence = job.spares_confidence.value_or(0.99),
                          .at_least = job.least_spares};
      pieces = std::move(pieces) | spares;
      order = pieces | job.piece_amount | choose_packs(stock);
    }
    const Patch pilot = chart | job.pilot;
    pieces = std::move(pieces) | TrialPieces{pilot};
    const BoardMarks marks = chart | BoardMarking{.board = job.board.value_or(Size{})};
    check_amounts(fabricate(job, {chart, counts, pieces, order, strips, marks, pilot}));
    return true;
  } catch (const Error& error) {
    CHECK(std::string(error.what()).find('\n') == std::string::npos);
    return false;
  }
}

Job job_of(Method method) {
  Job job{.method = method, .prices = {.roll = 4, .sheet = 11, .timber = 3}};
  if (method == Method::strips) job.gang.spacers = {{1 * mm, 40}, {0.1 * mm, 40}};
  return job;
}

}  // namespace

TEST_CASE("numbers at both ends of their range are reckoned or refused") {
  int numbers = 0;
  int plans = 0;
  for (const Method method : {Method::pieces, Method::strips}) {
    REQUIRE(reckoned(job_of(method), 10 * mm));
    for (const bool high : {false, true}) {
      Job all = job_of(method);
      for (const JobField& field : job_fields()) {
        const std::string text = at_end(field, high ? field.range.high : field.range.low);
        if (text.empty() || !(method == Method::strips ? field.with_strips : field.with_pieces)) continue;
        CAPTURE(field.word, text);
        Job job = job_of(method);
        if (std::string_view(field.word) == "wire-rise" || std::string_view(field.word) == "wire-span") {
          job.hanging.way = HangingWay::wire;
        }
        const ValueFault fault = field.read(text, LengthUnit::millimetres, field.range, job);
        REQUIRE_FALSE(fault.any());
        field.read(text, LengthUnit::millimetres, field.range, all);
        ++numbers;
        for (const Length pitch : {10 * mm, job.pitch.value_or(10 * mm)}) plans += reckoned(job, pitch) ? 1 : 0;
      }
      CAPTURE(high);
      for (const Length pitch : {0.1 * mm, 10 * mm, 1'000 * mm, 10'000 * mm}) {
        reckoned(all, pitch);
        for (const HangingWay way : {HangingWay::rail, HangingWay::hooks, HangingWay::wire}) {
          Job usual = job_of(method);
          usual.hanging.way = way;
          usual.framed = high;
          reckoned(usual, pitch);
        }
      }
    }
  }
  CHECK(numbers > 200);
  CHECK(plans > 300);
}
