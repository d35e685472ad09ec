#include "handlaid/files/job_file.hpp"

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

Job read(const std::string& text) { return read_job(text, "my.job"); }

/// A job with every option set, as far as they go together; the others in `rest`.
Job full_job() {
  return {.picture = "../photos/a cat, upright = 1.png",
          .title = "Käte's corner # 2",
          .method = Method::pieces,
          .units = LengthUnit::inches,
          .board = Size{Length::from_um(800'100), Length::from_um(1'066'801)},
          .columns = 72,
          .rows = 96,
          .pitch = Length::from_um(11'113),
          .course_pitch = Length::from_um(12'345),
          .crop = CropBox{122, 0, 347, 300},
          .brightness = -5,
          .contrast = 10,
          .saturation = 100,
          .clear_colour = Srgb8{255, 255, 255},
          .clear_tolerance = 0.02,
          .ground = Srgb8{1, 2, 3},
          .colours = 16,
          .stock = std::nullopt,
          .locks = {{.name = "rust = red"}, {.name = {}, .colour = {192, 64, 32}}},
          .exact_locks = {{.name = "coal"}},
          .forbidden = {{.name = "pink"}, {.name = {}, .colour = {1, 2, 3}}},
          .least_distance = 0.045,
          .least_cells = 12,
          .importance = "face and hands.png",
          .changes = "by hand.txt",
          .fitter = FitterChoice::median_cut,
          .dither = DitherChoice::ordered_bayer,
          .dither_strength = 0.1,
          .numbering = Numbering::clear,
          .viewing_distance = 3'200 * mm,
          .material = "felt tabs, 5 x 10 mm",
          .glue = "white glue",
          .board_kind = "birch plywood",
          .pieces_per_cell = 2,
          .spares = 0.03,
          .spares_confidence = 0.995,
          .least_spares = 2,
          .piece_amount = {StockUnit::millimetres, 35.5},
          .lots = {"rust: A 17/3", "oat: B2"},
          .pilot = {.columns = 8, .courses = 4},
          .consumables = {.glue_g_per_m2 = 180.125},
          .board_thickness = 12 * mm,
          .sheets = {.sheet = {1'219.2 * mm, 2'438.4 * mm}, .kerf = 2 * mm},
          .growth = {.driest = 0.25, .for_ten_percent = 0.002},
          .framed = true,
          .frame = {.timber_width = 64 * mm, .corners = Corners::mitred},
          .weight = {.board_kg_per_m3 = 750, .person_kg = 23},
          .hanging = {.way = HangingWay::wire, .wire_rise = 90 * mm, .rating = 2.5}};
}

}  // namespace

TEST_CASE("a job comes back from its file as it was") {
  const Job full = full_job();
  CHECK(read(write_job(full)) == full);
  CHECK(read(write_job(Job{})) == Job{});
  for (const auto dither :
       {DitherChoice::none, DitherChoice::diffuse_floyd_steinberg, DitherChoice::diffuse_jarvis_judice_ninke,
        DitherChoice::diffuse_atkinson, DitherChoice::ordered_bayer, DitherChoice::ordered_blue_noise}) {
    const Job job = {.dither = dither};
    CHECK(read(write_job(job)) == job);
  }
  const Job aspect = {.units = LengthUnit::millimetres, .crop = CropAspect{3, 4, CropFocus{240, 150}}};
  CHECK(read(write_job(aspect)) == aspect);
  const Job strips = {.method = Method::strips,
                      .crop = CropAspect{16, 9, {}},
                      .stock = "stock.csv",
                      .spares = 0.0,
                      .strips = {.fold = Fold::end_to_end, .overlap = 3 * mm, .trim = 20 * mm},
                      .rolls = {.width = 48 * mm, .joins = true, .grams_per_m2 = 82.5},
                      .gang = {.spacers = {{1.62 * mm, 20}, {0.11 * mm, 12}}, .newtons_a_blade = 8.5},
                      .painting = {.faces = 2, .spreading_m2_per_l = 9.25, .pot_loss = 0.2},
                      .batches = {.strips_per_batch = 10, .order = BatchOrder::by_colours},
                      .paint_days = {.drying_minutes = 45.5, .sittings = 3},
                      .rates = {.seconds_per_cut = 3.5},
                      .prices = {.roll = 7.95}};
  CHECK(read(write_job(strips)) == strips);
}

TEST_CASE("a job is written in plain words") {
  CHECK(write_job({.picture = "cat.png", .columns = 72, .pitch = 11 * mm, .spares = 0.03}) ==
        "# A job: every option of the plan. Give it again to get the same plan.\n"
        "\n[picture]\npicture = cat.png\n\n[board]\ncolumns = 72\npitch = 11 mm\n\n[material]\nspares = 3 %\n");
  CHECK_THROWS_WITH(write_job({.picture = " cat.png"}), contains("job file: picture has blanks"));
  CHECK_THROWS_WITH(write_job({.title = "two\nlines"}), contains("job file: title has blanks"));
}

TEST_CASE("headings are the sections of a job, and may be left out") {
  const Job job = {.columns = 72, .colours = 8};
  CHECK(read("[board]\ncolumns = 72\n[ colours ]\ncolours = 8\n") == job);
  CHECK(read("columns = 72\ncolours = 8\n") == job);
  CHECK_THROWS_WITH(read("[boards]\n"), "my.job, line 1: there is no section \"[boards]\"; did you mean \"[board]\"?");
  CHECK_THROWS_WITH(read("[board\n"), contains("there is no section"));
  CHECK_THROWS_WITH(read("[colours]\n\ncolumns = 72\n"),
                    "my.job, line 3: \"columns\" stands under [colours], its place is under [board]; move it there, or "
                    "leave the headings out");
}

TEST_CASE("every word has a help, a default in words and a section, and is known once") {
  std::vector<std::string> words;
  for (const JobField& field : job_fields()) {
    INFO(field.word);
    CHECK(std::string(field.help).ends_with('.'));
    CHECK(!std::string(field.without).empty());
    CHECK(!std::string(field.section).empty());
    CHECK(find_job_field(field.word) == &field);
    CHECK(std::find(words.begin(), words.end(), field.word) == words.end());
    CHECK((field.with_pieces || field.with_strips));
    words.push_back(field.word);
  }
}

TEST_CASE("a job may be written with all defaults, to go through") {
  for (const Method method : {Method::pieces, Method::strips}) {
    const Job job = {.method = method, .columns = 7};
    const std::string all = write_job(job, {.defaults = true});
    CHECK(read(all) == job);
    CHECK(all.size() >= write_job(job).size());
  }
}

TEST_CASE("a job file may come from any editor") {
  const Job job = read("\xef\xbb\xbf# mine\r\n\r\n  columns=72\r\n\tpitch =  11\r\nlock = rust\nlock=#c04020");
  CHECK(job == Job{.columns = 72, .pitch = 11 * mm, .locks = {{.name = "rust"}, {.colour = {192, 64, 32}}}});
  CHECK(read("") == Job{});
}

TEST_CASE("numbers without a unit are in the units of the job, wherever they stand") {
  CHECK(read("pitch = 0.5\nunits = inch\n").pitch == 0.5 * inch);
  CHECK(read("pitch = 0.5\n").pitch == 0.5 * mm);
  CHECK(read("units = inch\npitch = 11 mm\n").pitch == 11 * mm);
  CHECK(read("board = 800x600\n").board == Size{800 * mm, 600 * mm});
  CHECK(read("board = 31 1/2 x 24 in\n").board == Size{31.5 * inch, 24 * inch});
  CHECK(read("board = 800 mm x 2 ft\n").board == Size{800 * mm, 24 * inch});
  CHECK(read("board = 80 × 60 cm\n").board == Size{800 * mm, 600 * mm});
}

TEST_CASE("shares are read exactly, as parts of one or in percent") {
  CHECK(read("spares = 3%\n").spares == 0.03);
  CHECK(read("spares = 0.03\n").spares == 0.03);
  CHECK(read("spares = 1.1 %\n").spares == 0.011);
  CHECK(read("spares-confidence = 99.9 %\n").spares_confidence == 0.999);
}

TEST_CASE("what is wrong in a job file is said with file, line and remedy") {
  CHECK_THROWS_WITH(read("columns = 72\ncolumsn = 3\n"),
                    "my.job, line 2: there is no word \"columsn\"; did you mean \"columns\"?");
  CHECK_THROWS_WITH(read("colors = 3\n"), contains("did you mean \"colours\"?"));
  CHECK_THROWS_WITH(read("rows = 1\n\nrows = 1\n"),
                    "my.job, line 3: \"rows\" stands in line 1 already; keep one of the two");
  CHECK_THROWS_WITH(read("rows\n"), contains("my.job, line 1: there is no \"=\""));
  CHECK_THROWS_WITH(read("rows =\n"), contains("my.job, line 1, column 7: rows: nothing is given"));
  CHECK_THROWS_WITH(read("rows = 0\n"), "my.job, line 1, column 8: rows: 0 is out of range; give 1 to 100000");
  CHECK_THROWS_WITH(read("columns = 1000000\n"), contains("1000000 is out of range"));
  CHECK_THROWS_WITH(read("columns = 72 # wide\n"), contains("\"72 # wide\" is not a whole number"));
  CHECK_THROWS_WITH(read("columns = 7e3\n"), contains("is not a whole number"));
  CHECK_THROWS_WITH(read("columns = 99999999999999999999\n"), contains("is not a whole number"));
  CHECK_THROWS_WITH(read("colours = 1000\n"), contains("give 1 to 999 colours"));
  for (const char* length : {"nan", "-3", "-3 mm", "inf", "1e3", "mm", "3 kg", "1/0 in", "0x10", "1.5.2", "12,5"}) {
    CHECK_THROWS_WITH(read("pitch = " + std::string(length) + "\n"), contains("\" is not a length; write it like"));
  }
  CHECK_THROWS_WITH(read("pitch = 0\n"), contains("0 mm is out of range; give 0.1 mm to 10 m"));
  CHECK_THROWS_WITH(read("pitch = 99999999999 m\n"), contains("is not a length"));
  CHECK_THROWS_WITH(read("board = 800\n"), contains("\"800\" is not a width and a height"));
  CHECK_THROWS_WITH(read("board = 800x-3\n"), contains("is not a width and a height"));
  CHECK_THROWS_WITH(read("ground = red\n"), contains("\"red\" is not a colour; write it as #rrggbb"));
  CHECK_THROWS_WITH(read("lock = #12345\n"), contains("\"#12345\" is not a colour"));
  CHECK_THROWS_WITH(read("dither = floyd\n"),
                    contains("give none, floyd-steinberg, jarvis-judice-ninke, atkinson, bayer or blue-noise"));
  CHECK_THROWS_WITH(read("spares = 60 %\n"), contains("60 % is out of range"));
  CHECK_THROWS_WITH(read("spares = -0.1\n"), contains("\"-0.1\" is not a share"));
  CHECK_THROWS_WITH(read("spares-confidence = 1\n"), contains("1 is out of range"));
  for (const char* crop : {"1,2,3", "1,2,3,4,5", "3:", ":4", "3:4@", "3:4@5", "-1,0,5,5", "a,b,c,d"}) {
    CHECK_THROWS_WITH(read("crop = " + std::string(crop) + "\n"), contains("\" is not a crop; write"));
  }
  CHECK_THROWS_WITH(read("crop = 10,10,10,20\n"), contains("is an empty part of the picture"));
  CHECK_THROWS_WITH(read("crop = 0:4\n"), contains("is out of range"));
  CHECK_THROWS_WITH(read(std::string("\x89PNG\r\n\x1a\n", 8)), contains("my.job, line 1, column 1: there are bytes"));
  CHECK_THROWS_WITH(read("title = a\xc0\xaf\n"), contains("my.job, line 1, column 10: there are bytes"));
  CHECK_THROWS_WITH(read(std::string("title = a\0b\n", 12)), contains("there are bytes that are no text"));
}

TEST_CASE("an option without effect is refused") {
  CHECK_THROWS_WITH(read("dither-strength = 0.5\n"),
                    contains("my.job, line 1: dither-strength: it has no effect without a dither"));
  CHECK_THROWS_WITH(read("dither = none\ndither-strength = 0.5\n"), contains("my.job, line 2: dither-strength"));
  CHECK_THROWS_WITH(read("spares = 0\nspares-confidence = 0.9\n"), contains("line 2: spares-confidence"));
  CHECK_THROWS_WITH(read("method = strips\nleast-spares = 2\n"), contains("line 2: least-spares: it has no effect"));
  CHECK_THROWS_WITH(read("method = strips\nspares = 0\nspares-confidence = 0.9\n"),
                    contains("line 3: spares-confidence"));
  CHECK(read("method = strips\nspares = 0.1\n").spares == 0.1);  // spare strips
  CHECK_THROWS_WITH(read("fold = none\n"), contains("line 1: fold: it has no effect"));
  CHECK_THROWS_WITH(read("method = pieces\nstrip-trim = 1 cm\n"), contains("line 2: strip-trim"));
  CHECK_THROWS_WITH(read("course-pitch = 1 cm\npitch = 10 mm\n"), contains("line 1: course-pitch"));
  CHECK_THROWS_WITH(read("clear-tolerance = 0\n"), contains("line 1: clear-tolerance"));
  CHECK_THROWS_WITH(read("stock = s.csv\nfitter = kmeans\n"), contains("line 2: fitter"));
  CHECK_THROWS_WITH(read("colours = 1\nlock = #000000\nlock = #ffffff\n"), contains("2 colours are locked and only 1"));
  CHECK_THROWS_WITH(read("lock = #000000\nlock = #000000\n"), contains("is locked twice"));
  CHECK_THROWS_WITH(read("lock = #000000\nlock-exact = #000000\n"), contains("is locked twice"));
  CHECK_THROWS_WITH(read("lock = #000000\nforbid = #000000\n"), contains("line 2: forbid: #000000 is locked"));
  CHECK_THROWS_WITH(read("colours = 1\nlock = #000000\nfitter = kmeans\n"), contains("line 3: fitter"));
  CHECK_THROWS_WITH(read("colours = 2\nlock = #000000\nnumbering = clear\n"), contains("line 3: numbering"));
  CHECK_NOTHROW(read("spares-confidence = 0.9\n"));
}

TEST_CASE("a damaged job file is read or refused with its name, and what is read can be written again") {
  const std::string whole = write_job(full_job());
  Random random(7);
  int refused = 0;
  for (int round = 0; round < 5'000; ++round) {
    std::string text = whole;
    const auto at = [&] { return static_cast<std::size_t>(random.below(text.size() + 1)); };
    for (std::uint64_t change = random.below(4) + 1; change > 0; --change) {
      switch (random.below(4)) {
        case 0:
          text.insert(at(), 1, static_cast<char>(random.below(256)));
          break;
        case 1:
          text.erase(at(), random.below(8));
          break;
        case 2:
          text.insert(at(), text.substr(at(), random.below(30)));
          break;
        default:
          text.resize(at());
      }
    }
    try {
      const Job job = read(text);
      REQUIRE(read(write_job(job)) == job);
    } catch (const Error& error) {
      const std::string line = error.what();
      REQUIRE(line.starts_with("my.job, line "));
      REQUIRE(line.find_first_of("\r\n") == line.npos);
      ++refused;
    }
  }
  CHECK(refused > 1'000);
}
