// The main job: from a picture to everything needed to build it by hand. Reading options is all that happens here;
// `make_plan` plans and `for_each_sheet` draws.
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <iostream>
#include <thread>

#include "handlaid/files/job_file.hpp"
#include "handlaid/files/output_folder.hpp"
#include "handlaid/sheets/figures.hpp"

#include "support/plan_output.hpp"  // with HANDLAID_HAS_PDF and HANDLAID_HAS_SPREADSHEET, what these add

using namespace handlaid;
using examples::move_paths;
namespace fs = std::filesystem;

namespace {

volatile std::sig_atomic_t interrupted = 0;

/// What is on the command line beside the words of the job.
struct Options {
  Job job = {};
  std::string out = {};
  bool replace = false;
  int threads = 1;
};

/// `text` in lines of at most 80 letters, each with an indent.
std::string wrapped(const std::string& text, const std::string& indent) {
  std::string lines = indent;
  std::size_t length = indent.size();
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    if (length > indent.size() && length + 1 + word.size() > 80) {
      lines += "\n" + indent;
      length = indent.size();
    }
    if (length > indent.size()) lines += ' ';
    lines += word;
    length += 1 + word.size();
  }
  return lines + "\n";
}

std::string help() {
  std::string text =
      "usage: plan_panel PICTURE [--out FOLDER] [options]\n"
      "       plan_panel --job FILE [--out FOLDER] [options]\n\n"
      "Plans a panel: chart, palette, order, board marks and a book for the bench, from\n"
      "a JPEG, PNG, BMP or PNM picture. Whatever is not given is proposed, with the\n"
      "reason. The same words stand in a job file, as lines like: columns = 72\n";
  const auto add = [&](const std::string& option, const std::string& what, const std::string& without) {
    text += "\n  --" + option + "\n" + wrapped(what + (without.empty() ? "" : " [" + without + "]"), "        ");
  };
  for (const JobField& field : job_fields()) {
    if (std::string_view(field.word) == "picture") continue;
    add(std::string(field.word) + " " + field.value, field.help, field.without);
  }
  add("out FOLDER", "Where the plan is put; the folder appears when all is done.", "PICTURE-plan");
  add("replace", "Put it in place of an earlier plan there.", "a folder with files in it is left alone");
  add("job FILE", "A job file, like the plan.job of a plan; options given beside it come first.", "none");
  add("threads N", "Threads to work with, 1 to 256; the plan is the same for any number.",
      "as many as the machine has");
  return text;
}

/// Throws CLI::Error for wrong use of options, and Error for a wrong value.
Options read_options(int argc, char** argv) {
  CLI::App app;
  app.set_help_flag("");
  bool wants_help = false;
  Options options;
  std::string job_file;
  options.threads = static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1U, 256U));
  app.add_flag("-h,--help", wants_help);
  app.add_option("--out", options.out);
  app.add_flag("--replace", options.replace);
  app.add_option("--job", job_file);
  app.add_option("--threads", options.threads);
  std::vector<std::vector<std::string>> texts(job_fields().size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const std::string word = job_fields()[i].word;
    app.add_option(word == "picture" ? word : "--" + word, texts[i])->expected(1)->take_all()->allow_extra_args(false);
  }
  app.parse(argc, argv);
  if (wants_help) throw CLI::CallForHelp();
  if (options.threads < 1 || options.threads > 256) {
    throw Error::out_of_range("--threads", std::to_string(options.threads), "1 to 256");
  }

  if (!job_file.empty()) {
    options.job = read_job(read_text_file(job_file, 1'000'000), job_file);
    move_paths(options.job, fs::path(job_file).parent_path(), {});
  }
  // Plain numbers are in the unit that was given, wherever it stands.
  for (const bool units : {true, false}) {
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const JobField& field = job_fields()[i];
      const std::string name = std::string(field.word) == "picture" ? "PICTURE" : "--" + std::string(field.word);
      if ((std::string(field.word) == "units") != units || texts[i].empty()) continue;
      if (texts[i].size() > 1 && !field.repeats) {
        throw Error::bad_option(name, "it is given " + std::to_string(texts[i].size()) + " times", "give it once");
      }
      field.clear(options.job);
      for (const std::string& text : texts[i]) {
        const LengthUnit unit = options.job.units.value_or(LengthUnit::millimetres);
        const ValueFault fault = field.read(text, unit, field.range, options.job);
        if (fault.any()) throw Error::bad_option(name, fault.problem, fault.remedy);
      }
    }
  }
  if (!options.job.picture) throw Error::bad_option("PICTURE", "nothing is given", "name a picture; see --help");
  if (options.out.empty()) options.out = fs::path(*options.job.picture).stem().string() + "-plan";
  return options;
}

/// A line on the terminal, from half a second on; nothing where the output goes elsewhere.
class ProgressLine {
 public:
  bool operator()(const char* step, double) {
    if (shown_ && step != last_) show(step);
    if (!shown_ && terminal_ && std::chrono::steady_clock::now() - start_ > std::chrono::milliseconds(500)) show(step);
    return interrupted == 0;
  }
  ~ProgressLine() { clear(); }
  void clear() {
    if (shown_) std::cerr << "\r\033[K" << std::flush;
    shown_ = false;
  }

 private:
  void show(const char* step) {
    std::cerr << "\r\033[KPlanning: " << step << " ..." << std::flush;
    shown_ = true;
    last_ = step;
  }
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
  bool terminal_ = isatty(STDERR_FILENO) != 0;
  bool shown_ = false;
  std::string last_ = {};
};

void summarise(const Plan& plan, const std::vector<std::string>& more_notes, const std::string& folder,
               std::ostream& out) {
  const LengthUnit unit = *plan.job.units;
  const Rectangular& cells = plan.chart.lattice;
  out << plan.job.title.value_or("Panel") << ": " << cells.columns << " x " << cells.rows << " cells, "
      << shown(cells.extent().width, unit) << " x " << shown(cells.extent().height, unit) << "\n";
  out << count_text(plan.pieces.pieces(), "piece", "pieces") << " in "
      << count_text(plan.tally.colours_used(), "colour", "colours");
  if (plan.pieces.needed() > plan.pieces.pieces()) {
    out << ", " << count_text(plan.pieces.needed()) << " with spares and those to try";
  }
  out << "\n";
  if (plan.order) {
    out << count_text(plan.order->pack_count(), "pack", "packs") << ", "
        << money_text(plan.order->cost_hundredths(), plan.order->currency) << "\n";
  }
  if (plan.strips) {
    out << count_text(static_cast<std::int64_t>(plan.strips->strips.size()), "strip", "strips") << " of "
        << shown(plan.strips->length, unit) << "\n";
  }
  for (const std::string& note : plan.notes) out << wrapped("Note: " + note, "");
  for (const std::string& note : more_notes) out << wrapped("Note: " + note, "");
  out << "Open first: " << folder << "/index.html (the book for the bench)\n"
      << "      then: " << folder << "/preview.png (how it will look)\n"
      << "            " << folder << "/crop_ruler.png (to choose another crop)\n"
#ifdef HANDLAID_HAS_PDF
      << "     print: " << folder << "/*.pdf at 100 %, never fitted to the page\n"
#endif
      << "Once more:  plan_panel --job " << folder << "/plan.job --out " << folder << " --replace\n";
}

void plan_panel(const Options& options) {
  ProgressLine line;
  const Work work = {.threads = options.threads, .progress = line};
  OutputFolder folder(options.out, {.replace = options.replace, .known = examples::plan_files()});

  const Plan plan = examples::planned(options.job, work);
  const std::vector<std::string> notes = examples::write_plan(plan, folder, work);
  if (interrupted != 0) throw Error::stopped("writing the plan");
  folder.finish();
  line.clear();
  std::ostringstream summary;
  summarise(plan, notes, folder.path(), summary);
  std::cout << summary.str() << std::flush;
  if (!std::cout) throw Error::bad_output("summary", "it could not be shown", "the plan is in " + folder.path());
}

}  // namespace

int main(int argc, char** argv) {
  const auto fail = [](const std::string& line, int code) {
    std::cerr << "plan_panel: " << line << "\n";
    return code;
  };
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) std::signal(signal, [](int) { interrupted = 1; });
  try {
    plan_panel(read_options(argc, argv));
    return 0;
  } catch (const CLI::CallForHelp&) {
    std::cout << help();
    return std::cout.flush() ? 0 : 1;
  } catch (const CLI::Error& error) {
    return fail(std::string(error.what()) + "; see --help", 2);
  } catch (const Error& error) {
    return fail(error.what(), error.kind() == Error::Kind::option ? 2 : 1);
  } catch (const std::exception& error) {
    return fail(error.what(), 1);
  }
}
