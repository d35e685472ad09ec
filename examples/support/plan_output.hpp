// What programs that write the folder of a plan share: its files, and the paths in its job.
#pragma once

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/files/changes_file.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/files/output_folder.hpp"
#include "handlaid/files/stock_table.hpp"
#include "handlaid/files/text_file.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/plan/make.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/all.hpp"

#ifdef HANDLAID_HAS_PDF
#include "handlaid/optional/pdf_sheets.hpp"
#endif
#ifdef HANDLAID_HAS_SPREADSHEET
#include "handlaid/optional/spreadsheet.hpp"
#endif

namespace examples {

/// The endings of pictures that a plan keeps with it.
inline constexpr const char* picture_endings[] = {".jpg", ".jpeg", ".png", ".bmp", ".pnm", ".pbm", ".pgm", ".ppm", ""};

/// Files that a plan of either method has: nothing else is ever replaced.
inline std::vector<std::string> plan_files() {
  std::vector<std::string> names = {"index.html",  "plan.job",    "chart.csv",      "palette.csv", "takeoff.csv",
                                    "marks.csv",   "checks.csv",  "strips.csv",     "batches.csv", "cuts.csv",
                                    "frame.csv",   "hours.csv",   "plan.json",      "chart.svg",   "chart_pixels.png",
                                    "preview.png", "changes.txt", "crop_ruler.png", "stock.csv"};
  for (const char* ending : picture_endings) {
    names.push_back(std::string("picture") + ending);
    names.push_back(std::string("importance") + ending);
  }
#ifdef HANDLAID_HAS_PDF
  names.insert(names.end(), std::begin(handlaid::pdf_sheet_names), std::end(handlaid::pdf_sheet_names));
#endif
#ifdef HANDLAID_HAS_SPREADSHEET
  names.push_back("chart.xlsx");
#endif
  return names;
}

/// Paths of a job file are relative to it; ours are relative to where we are, or the other way round.
inline void move_paths(handlaid::Job& job, const std::filesystem::path& from, const std::filesystem::path& to) {
  namespace fs = std::filesystem;
  for (auto* path : {&job.picture, &job.stock, &job.importance, &job.changes}) {
    if (!*path) continue;
    const fs::path whole = from / fs::path(**path);
    *path = to.empty() ? whole.lexically_normal().string() : fs::proximate(whole, to).string();
  }
}

/// The plan of a job whose paths are from where we are; with its file of changes, unless they are given.
inline handlaid::Plan planned(const handlaid::Job& job, const handlaid::Work& work,
                              handlaid::ColourChanges changes = {}) {
  using namespace handlaid;
  std::optional<Stock> stock;
  if (job.stock) stock = read_stock(read_text_file(*job.stock, 10'000'000), *job.stock);
  Raster<Srgb8> importance;
  if (job.importance) importance = read<Srgb8>(*job.importance);
  if (job.changes && changes.empty()) changes = read_colour_changes(read_text_file(*job.changes), *job.changes);
  return make_plan(job, read_file(*job.picture), *job.picture, stock, work, {.stability = true}, importance, changes);
}

/// Puts a copy of what a job reads into the folder, so that the plan can be made again wherever the folder is taken,
/// and names the copy instead. What is no plain file, such as a pipe, is left where it is.
inline void keep_input(const std::optional<std::string>& path, const std::string& name, handlaid::OutputFolder& folder,
                       std::optional<std::string>& word) {
  namespace fs = std::filesystem;
  if (!path || !fs::is_regular_file(*path)) return;
  std::string ending = fs::path(name).has_extension() ? "" : fs::path(*path).extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (std::find(std::begin(picture_endings), std::end(picture_endings), ending) == std::end(picture_endings))
    ending = "";
  folder.write(name + ending, handlaid::read_text_file(*path, handlaid::ReadOptions{}.max_bytes));
  word = name + ending;
}

/// Writes every sheet of a plan whose paths are from where we are; what the maker should know of those that are not
/// there is returned. The caller finishes the folder.
inline std::vector<std::string> write_plan(handlaid::Plan plan, handlaid::OutputFolder& folder,
                                           const handlaid::Work& work) {
  namespace fs = std::filesystem;
  const handlaid::Job given = plan.job;
  move_paths(plan.job, {}, fs::weakly_canonical(fs::absolute(folder.path())));
  if (plan.job.changes) plan.job.changes = "changes.txt";  // the folder has its own, to be planned again from itself
  keep_input(given.picture, "picture", folder, plan.job.picture);
  keep_input(given.importance, "importance", folder, plan.job.importance);
  keep_input(given.stock, "stock.csv", folder, plan.job.stock);
  for (const handlaid::SheetFile& file : make_sheets(plan, work)) folder.write(file.name, file.bytes);
  std::vector<std::string> notes;
#ifdef HANDLAID_HAS_PDF
  handlaid::PdfSheets printed = make_pdf_sheets(plan, {HANDLAID_FONT, HANDLAID_BOLD_FONT});
  for (const handlaid::SheetFile& file : printed.files) folder.write(file.name, file.bytes);
  notes = std::move(printed.notes);
#endif
#ifdef HANDLAID_HAS_SPREADSHEET
  folder.write("chart.xlsx", write_chart_workbook(plan.chart));
#endif
  return notes;
}

}  // namespace examples
