// Is it laid as planned? A course that is read off the board, runs that are counted, or a photo of the whole board.
// Ends with 0 where no slip was found, 3 where there are slips, 2 for wrong options and 1 for files that cannot be
// used.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <optional>

#include "handlaid.hpp"

using namespace handlaid;

namespace {

constexpr int no_slip = 0;
constexpr int slips_found = 3;

/// What stands on the command line.
struct Options {
  std::vector<std::string> words = {};
  std::optional<int> course = {};
  std::optional<int> runs = {};
  std::optional<std::string> last_mark = {};
  std::optional<std::string> corners = {};
  std::string out = {};
  std::string marks = {};
};

int whole(const std::string& option, const std::string& text) {
  const bool digits = !text.empty() && text.size() < 7 && text.find_first_not_of("0123456789") == text.npos;
  if (!digits) throw Error::bad_option(option, quoted_in_message(text) + " is no whole number", "give one, like 12");
  return std::atoi(text.c_str());
}

Options read_options(int argc, char** argv) {
  Options options;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (!word.starts_with("--")) {
      options.words.push_back(word);
      continue;
    }
    if (++i == argc) throw Error::bad_option(word, "nothing follows it", "give its value");
    const std::string value = argv[i];
    if (word == "--course") {
      options.course = whole(word, value);
    } else if (word == "--runs") {
      options.runs = whole(word, value);
    } else if (word == "--last-mark") {
      options.last_mark = value;
    } else if (word == "--corners") {
      options.corners = value;
    } else if (word == "--out") {
      options.out = value;
    } else if (word == "--marks") {
      options.marks = value;
    } else {
      throw Error::bad_option(word, "it is not known",
                              "give --course, --runs, --last-mark, --corners, --marks or --out");
    }
  }
  return options;
}

/// "x,y x,y x,y x,y".
BoardCorners read_corners(const std::string& text) {
  BoardCorners corners;
  int used = 0;
  const int read =
      std::sscanf(text.c_str(), "%lf , %lf %lf , %lf %lf , %lf %lf , %lf %n", &corners[0].x, &corners[0].y,
                  &corners[1].x, &corners[1].y, &corners[2].x, &corners[2].y, &corners[3].x, &corners[3].y, &used);
  if (read != 8 || static_cast<std::size_t>(used) != text.size()) {
    throw Error::bad_option("--corners", quoted_in_message(text) + " is not four places",
                            "give four like \"90,812 104,77 960,60 981,830\": bottom left, top left, top right, bottom "
                            "right");
  }
  return corners;
}

/// A course that was typed as it stands on the board.
int compare_course(const PlanFolder& plan, int course, const std::string& typed) {
  const std::vector<ColourNumber> laid = read_typed_course(typed, "course " + std::to_string(course));
  const CourseCheck check = check_course(plan.chart, course);
  const auto slips = course_slips(plan.chart, course, laid);
  for (const CourseSlip& slip : slips) {
    std::printf("course %d, %s\n", course, slip_text(slip, plan.chart.palette).c_str());
  }
  std::printf("course %d: %s, check %s; the plan has %s, check %s: %s\n", course,
              count_text(std::ssize(laid), "cell", "cells").c_str(),
              check_text(check_figure(std::span<const ColourNumber>(laid))).c_str(),
              count_text(check.figure.length, "cell", "cells").c_str(), check_text(check.figure).c_str(),
              slips.empty() ? "no slip" : count_text(std::ssize(slips), "slip", "slips").c_str());
  return slips.empty() ? no_slip : slips_found;
}

/// Runs that were counted from the datum end, and where the last of them ends.
int compare_runs(const PlanFolder& plan, int course, int runs, const std::optional<std::string>& last_mark) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const CourseCheck check = check_course(plan.chart, course);
  if (runs < 1) throw Error::out_of_range("--runs", std::to_string(runs), "1 or more");
  const int column = end_of_run(plan.chart, course, runs);
  if (column == 0 || (!last_mark && runs != check.runs)) {
    std::printf("course %d: %d runs are laid, the plan has %d\n", course, runs, check.runs);
    return slips_found;
  }
  const Length wanted = plan.marks().across[static_cast<std::size_t>(column)];
  Length found = wanted;
  if (last_mark && !parse_length(*last_mark, unit, found)) {
    throw Error::bad_option("--last-mark", quoted_in_message(*last_mark) + " is no length",
                            "give one like 532 or 532 mm");
  }
  const Length off = found > wanted ? found - wanted : wanted - found;
  if (off.times(2) >= plan.chart.lattice.pitch_x()) {  // slips are whole cells, what is less is a reading
    const std::int64_t cells = (off + plan.chart.lattice.pitch_x().divided(2)).count_of(plan.chart.lattice.pitch_x());
    std::printf("course %d: run %d should end at the mark %s (column %d), not at %s: %s too %s\n", course, runs,
                shown(wanted, unit).c_str(), column, shown(found, unit).c_str(),
                count_text(cells, "cell", "cells").c_str(), found > wanted ? "far" : "near the datum");
    return slips_found;
  }
  std::printf("course %d: no slip up to run %d of %d, column %d, mark %s\n", course, runs, check.runs, column,
              shown(wanted, unit).c_str());
  return no_slip;
}

/// A photo of the board, set straight by its corners or by the printed marks.
int compare_photo(const PlanFolder& plan, const std::string& file, const Options& options) {
  const Chart<>& chart = plan.chart;
  const auto photo = read<Srgb8>(file, {.ground = Srgb8{255, 255, 255}});
  const double hang =  // what strips hang over, in courses
      static_cast<double>(plan.overlap().um()) / static_cast<double>(chart.lattice.pitch_y().um());
  BoardCorners corners;
  if (options.corners) {
    corners = read_corners(*options.corners);
    check_corners(corners, photo.width(), photo.height(), "--corners");
  } else {
    const MarksOut out = marks_out(chart.lattice);
    corners = corners_by_marks(find_marks(photo), chart.columns(), chart.courses() + hang, out.columns, out.courses);
  }
  if (hang > 0) corners = lower_rows(corners, chart.courses(), hang);
  corners = refine_corners(photo, corners, chart.columns(), chart.courses());
  const Homography to_photo = board_to_photo(corners, chart.columns(), chart.courses());
  const auto seen = Straighten{.columns = chart.columns(), .rows = chart.courses(), .to_photo = to_photo}(photo);
  const BoardProof proof = ProofOfBoard{.hangs_over = hang > 0}(chart, seen);

  const ProofPicture picture{.columns = chart.columns(), .rows = chart.courses()};
  const StraightView view{picture.columns, picture.rows, to_photo, picture.cell_pixels()};
  const std::string stem = std::filesystem::path(file).stem().string();
  OutputFolder out(options.out.empty() ? stem + "-proof" : options.out,
                   {.replace = true, .known = {"proof.csv", "proof.png"}});
  out.write("proof.csv", write_proof(proof, chart.palette));
  out.write("proof.png", write_png(picture(view(photo), proof)));
  out.finish();

  for (std::size_t i = 0; i < proof.doubtful.size() && i < 20; ++i) {
    std::printf("%s\n", doubt_text(proof.doubtful[i], chart.palette).c_str());
  }
  if (proof.doubtful.size() > 20) std::printf("... and more, see proof.csv\n");
  for (const LookAlikes& pair : proof.look_alikes) {
    std::printf("this photo cannot tell %s from %s\n",
                pair.one == 0 ? "the bare board" : number_words(pair.one, chart.palette).c_str(),
                number_words(pair.other, chart.palette).c_str());
  }
  std::printf("%s laid, %s looked at: %s to look at again; see proof.png\n",
              count_text(proof.laid_courses, "course", "courses").c_str(),
              count_text(proof.cells, "cell", "cells").c_str(),
              count_text(std::ssize(proof.doubtful), "cell", "cells").c_str());
  return proof.doubtful.empty() ? no_slip : slips_found;
}

/// -1 where the words make no sense together.
int proof_read(const Options& options) {
  const std::size_t words = options.words.size();
  const bool counted = options.runs || options.last_mark;
  if (words < 1 || words > 2 || (!options.runs && options.last_mark)) return -1;
  if (options.course && (counted ? words != 1 : words != 2)) return -1;
  if (!options.course && (counted || (words == 1) == options.marks.empty())) return -1;
  const PlanFolder plan = read_plan_folder(options.words[0], {.strips = true});
  if (options.course && counted) return compare_runs(plan, *options.course, *options.runs, options.last_mark);
  if (options.course) return compare_course(plan, *options.course, options.words[1]);
  if (words == 2) return compare_photo(plan, options.words[1], options);
  write_text_file(options.marks, page_svg(corner_marks_page(
                                     plan.chart.lattice, {.paper = paper_of(plan.job),
                                                          .overlap = plan.overlap(),
                                                          .unit = plan.job.units.value_or(LengthUnit::millimetres)})));
  std::printf("%s: print it at 100 %%, cut out the marks and lay them at the corners\n", options.marks.c_str());
  return no_slip;
}

}  // namespace

constexpr const char* usage =
    "usage: proof_read PLAN-FOLDER --course N \"3x5 4 7x2\"\n"
    "       proof_read PLAN-FOLDER --course N --runs COUNTED [--last-mark LENGTH]\n"
    "       proof_read PLAN-FOLDER PHOTO [--corners \"x,y x,y x,y x,y\"] [--out NEW-FOLDER]\n"
    "       proof_read PLAN-FOLDER --marks MARKS.svg\n"
    "Compares a course that is read out, its counted runs or a photo of the board with the plan.\n";

int main(int argc, char** argv) {
  if (argc == 2 && std::string_view(argv[1]) == "--help") return std::printf("%s", usage), 0;
  try {
    const int code = proof_read(read_options(argc, argv));
    if (code >= 0) return code;
  } catch (const Error& error) {
    return std::fprintf(stderr, "proof_read: %s\n", error.what()), error.kind() == Error::Kind::option ? 2 : 1;
  }
  return std::fprintf(stderr, "%s", usage), 2;
}
