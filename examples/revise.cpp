// A chart that was edited by hand becomes a plan again: what differs is listed, and takeoff and book follow.
//   revise PLAN-FOLDER EDITED NEW-FOLDER
// EDITED is the plan's chart.csv, chart.xlsx (or .ods) or chart_pixels.png after the edit, or a file of changes (.txt).
#include <cstdio>
#include <filesystem>

#include "handlaid.hpp"
#include "support/plan_output.hpp"  // with HANDLAID_HAS_PDF and HANDLAID_HAS_SPREADSHEET, what these add
#ifdef HANDLAID_HAS_SPREADSHEET
#include "handlaid/optional/read_spreadsheet.hpp"
#endif

using namespace handlaid;
namespace fs = std::filesystem;

namespace {

/// The numbers of the edited chart, whatever kind of file it is.
Raster<ColourNumber> edited_numbers(const std::string& file, const std::string& kind, const Chart<>& was) {
  if (kind == ".csv") return read_edited_chart(read_text_file(file), was, file);
  if (kind == ".png") return read_chart_pixels(read<Srgba8>(file), was, file);
#ifdef HANDLAID_HAS_SPREADSHEET
  if (kind == ".xlsx" || kind == ".ods") {
    const std::vector<unsigned char> bytes = read_file(file);
    const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    return read_edited_chart(read_spreadsheet(text, file), was);
  }
#endif
  throw Error::bad_input(file, "it is no kind of chart that is known here",
#ifdef HANDLAID_HAS_SPREADSHEET
                         "give a .csv, .xlsx, .ods or .png of the chart, or changes as .txt");
#else
                         "give a .csv or .png of the chart, or changes as .txt");
#endif
}

std::string colour_text(int number) { return number == 0 ? "empty" : std::to_string(number); }

/// The first cells that differ, and how many by colours.
void say_differences(const std::vector<CellChange>& cells) {
  constexpr std::size_t most_named = 20;
  for (std::size_t i = 0; i < cells.size() && i < most_named; ++i) {
    std::printf("course %d, column %d: %s, was %s\n", cells[i].course, cells[i].column,
                colour_text(cells[i].to).c_str(), colour_text(cells[i].from).c_str());
  }
  if (cells.size() > most_named) std::printf("and %s more\n", count_text(std::ssize(cells) - 20).c_str());
  for (const ChangedPair& pair : changed_pairs(cells)) {
    std::printf("%s to %s: %s\n", colour_text(pair.from).c_str(), colour_text(pair.to).c_str(),
                count_text(pair.cells, "cell", "cells").c_str());
  }
}

/// In small letters: ".CSV" is ".csv".
std::string ending(const std::string& file) {
  std::string kind = fs::path(file).extension().string();
  for (char& c : kind) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return kind;
}

/// Throws Error where the chart in the folder is not the one that its job makes: then it was edited in place, and those
/// edits would be lost unless it is what is given.
void check_untouched(const std::string& folder, const std::string& edited, const Chart<>& planned) {
  const std::string file = folder + "/chart.csv";
  std::error_code none;
  if (fs::equivalent(file, edited, none)) return;
  if (read_edited_chart(read_text_file(file), planned, file) == planned.numbers) return;
  throw Error::bad_input(file, "it is not the chart that plan.job beside it makes: it was edited, or the picture was",
                         "give this file as the edited one first");
}

void revise(const std::string& folder, const std::string& edited, const std::string& new_folder) {
  const std::string kind = ending(edited);
  Job job = read_job(read_text_file(folder + "/plan.job", 1'000'000), folder + "/plan.job");
  if (!job.picture) {
    throw Error::bad_input(folder + "/plan.job", "it names no picture", "add a line like picture = a.jpg");
  }
  examples::move_paths(job, folder, {});
  // What was edited is compared with what the job makes, since a maker may well have edited the file in the folder.
  const Plan before = examples::planned(job, {});
  check_untouched(folder, edited, before.chart);

  // What was changed before stays; what is new comes after it.
  ColourChanges changes = before.changes;
  if (kind == ".txt") {
    changes.append(read_colour_changes(read_text_file(edited), edited));
  } else {
    const std::vector<CellChange> cells =
        differing_cells(before.chart.numbers, edited_numbers(edited, kind, before.chart));
    if (cells.empty()) {
      std::printf("%s: nothing differs\n", edited.c_str());
      return;
    }
    changes.append({.list = lay_lines(cells)});
  }
  changes.file = edited;  // the lines of before were sound

  OutputFolder out(new_folder, {.known = examples::plan_files()});
  job.changes = edited;  // that there are some; they are given beside it
  const Plan plan = examples::planned(job, {}, changes);
  const std::vector<CellChange> cells = differing_cells(before.chart.numbers, plan.chart.numbers);
  say_differences(cells);
  const std::vector<std::string> notes = examples::write_plan(plan, out, {});
  out.finish();
  for (const std::string& note : notes) std::printf("Note: %s\n", note.c_str());
  std::printf("%s changed: %s\n", count_text(std::ssize(cells), "cell", "cells").c_str(), new_folder.c_str());
}

}  // namespace

constexpr const char* usage =
    "usage: revise PLAN-FOLDER EDITED NEW-FOLDER\n"
    "EDITED: chart.csv, chart.xlsx, .ods or chart_pixels.png after the edit, or changes as .txt\n";

int main(int argc, char** argv) {
  if (argc == 2 && std::string_view(argv[1]) == "--help") return std::printf("%s", usage), 0;
  if (argc != 4) return std::fprintf(stderr, "%s", usage), 2;
  try {
    return revise(argv[1], argv[2], argv[3]), 0;
  } catch (const std::exception& error) {
    return std::fprintf(stderr, "revise: %s\n", error.what()), 1;
  }
}
