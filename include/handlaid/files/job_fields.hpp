// All words of a job in one table: the job file and the command line read it, `--help` and the writer show it.
#pragma once

#include <array>
#include <span>
#include <string_view>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_field.hpp"
#include "handlaid/files/job_words_board.hpp"
#include "handlaid/files/job_words_making.hpp"
#include "handlaid/files/job_words_picture.hpp"
#include "handlaid/files/job_words_print.hpp"
#include "handlaid/files/job_words_work.hpp"

namespace handlaid {

/// All options, in the order in which they are shown and written.
template <When = When::called>
std::span<const JobField> job_fields();

/// The option of that word, or nullptr.
template <When = When::called>
const JobField* find_job_field(std::string_view word) {
  for (const JobField& field : job_fields()) {
    if (word == field.word) return &field;
  }
  return nullptr;
}

namespace detail {

/// What the words of a section have in common.
struct JobSection {
  const char* name = "";
  std::span<const JobField> words = {};
  bool with_pieces = true;
  bool with_strips = true;
};

/// The sections, in the order in which they are written.
template <When when>
inline constexpr std::array job_sections = {
    JobSection{"picture", picture_words<when>},
    JobSection{"board", board_words<when>},
    JobSection{"board", panel_words<when>},
    JobSection{"colours", colour_words<when>},
    JobSection{"stock", stock_words<when>},
    JobSection{"material", material_words<when>},
    JobSection{"material", piece_words<when>, true, false},
    JobSection{"material", strip_words<when>, false, true},
    JobSection{"material", pilot_words<when>},
    JobSection{"paint", paint_words<when>, false, true},
    JobSection{"batch", batch_words<when>, false, true},
    JobSection{"cutting", cutting_words<when>, false, true},
    JobSection{"frame", frame_words<when>},
    JobSection{"print", print_words<when>},
    JobSection{"rates", rate_words<when>},
    JobSection{"rates", strip_price_words<when>, false, true},
};

template <When when>
constexpr std::size_t count_job_words() {
  std::size_t count = 0;
  for (const JobSection& section : job_sections<when>) count += section.words.size();
  return count;
}

template <When when>
inline constexpr auto job_field_table = [] {
  std::array<JobField, count_job_words<when>()> table;
  std::size_t at = 0;
  for (const JobSection& section : job_sections<when>) {
    for (JobField field : section.words) {
      field.section = section.name;
      field.with_pieces = field.with_pieces && section.with_pieces;
      field.with_strips = field.with_strips && section.with_strips;
      table[at++] = field;
    }
  }
  return table;
}();

}  // namespace detail

template <When>
std::span<const JobField> job_fields() {
  return detail::job_field_table<When::called>;
}

}  // namespace handlaid
