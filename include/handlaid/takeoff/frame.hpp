// The frame under a board: rails round the edge, battens between, their cut list from stock lengths, and the screws.
// `Frame{.corners = Corners::mitred}(board)`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/cut_lengths.hpp"
#include "handlaid/takeoff/screws.hpp"

namespace handlaid {

/// How the rails meet.
enum class Corners {
  butted,  ///< top and bottom rails run through, the side rails stand between them
  mitred   ///< both are cut at 45 degrees
};

/// Timbers of one kind.
struct FramePart {
  std::string name = {};
  /// Between the long points where it is mitred.
  Length length = {};
  std::int64_t count = 0;
  bool mitred = false;
  /// Through the board into each of them, `screws_along` it; 0 for the one on the wall.
  std::int64_t screws = 0;
  friend bool operator==(const FramePart&, const FramePart&) = default;
};

/// The frame and what it is cut from.
struct FrameTakeoff {
  std::vector<FramePart> parts = {};
  Length timber_width = {};
  Length timber_thickness = {};
  Length stock_length = {};
  Length kerf = {};
  /// One need for each of `parts`.
  CutPlan cuts = {};
  std::int64_t timber_mm3 = 0;
  /// Through the board into rails and battens.
  std::int64_t screws = 0;
  /// From the left edge of the board to the middle of each batten.
  std::vector<Length> battens = {};
  /// How far the battens end below the top rail, to leave the wall rail its room; 0 without one.
  Length batten_gap = {};
  /// The timber on the wall that the top rail rests on; 0 without one.
  Length wall_rail = {};
  friend bool operator==(const FrameTakeoff&, const FrameTakeoff&) = default;
};

/// Play between the wall rail and what is round it: at each end and under the battens' tops. The panel can be moved by
/// as much to hang straight. Common practice, no source.
inline constexpr Length wall_rail_play = 10 * mm;

/// Options of a frame. A timber called 1 x 2 in North America is 19 x 38 mm when dressed and dry (DOC PS 20, American
/// Softwood Lumber Standard).
struct Frame {
  /// Seen from the front.
  Length timber_width = 38 * mm;
  Length timber_thickness = 19 * mm;
  Corners corners = Corners::butted;
  /// As sold.
  Length timber_length = 2'400 * mm;
  /// Lost at each cut: common practice, no source.
  Length kerf = Length::from_um(3'200);
  /// Battens stand no further apart: common practice, no source.
  Length batten_spacing = 400 * mm;
  /// Screws along every timber: common practice, no source.
  Length screw_spacing = 150 * mm;
  /// Whether a timber of the same kind is cut for the wall: it stands inside the frame under the top rail, which rests
  /// on it, and the battens end below it.
  bool wall_rail = false;
  /// Whether the middle is kept free of battens: the hook of a wire goes in there.
  bool free_middle = false;
  friend constexpr bool operator==(const Frame&, const Frame&) = default;

  /// Whether the timber is long enough for the board, and leaves room in it.
  constexpr bool fits(const Size& board) const {
    return board.width <= timber_length && board.height <= timber_length && board.width > least_size().width &&
           board.height > least_size().height;
  }

  /// A board must be larger both ways: two rails, and between them the wall rail and a batten's end.
  constexpr Size least_size() const {
    if (!wall_rail) return {timber_width.times(2), timber_width.times(2)};
    return {timber_width.times(2) + wall_rail_play.times(4), timber_width.times(4) + wall_rail_play};
  }

  /// Throws Error for lengths out of range, timber too wide for the board, and a rail longer than the timber is sold.
  template <When = When::called>
  FrameTakeoff operator()(const Size& board) const;
};

/// Where a screw down through the top rail meets none of those in the wall, nor those through the board into that rail;
/// from the side of the panel.
template <When = When::called>
Length keeper_place(const FrameTakeoff& frame, std::int64_t wall_screws) {
  const std::vector<Length> places = screws_along(frame.wall_rail, wall_screws);
  const Length between = places.size() < 2 ? frame.wall_rail.divided(4) : (places[0] + places[1]).divided(2);
  Length place = frame.timber_width + wall_rail_play + std::min(between, places.front() + 100 * mm);
  const Length top_rail = frame.parts.front().length;
  const Length clear = 12 * mm;
  for (const Length screw : screws_along(top_rail, frame.parts.front().screws)) {
    if (place <= screw - clear || place >= screw + clear) continue;
    place = (screw + clear).times(2) < top_rail ? screw + clear : screw - clear;
  }
  return place;
}

template <When>
FrameTakeoff Frame::operator()(const Size& board) const {
  const auto text = [](Length length) { return to_text(length, LengthUnit::millimetres); };
  const auto check = [&](const char* name, Length length, Length most) {
    if (length <= Length{} || length > most)
      throw Error::out_of_range(name, text(length), "above 0, up to " + text(most));
  };
  check("timber-width", timber_width, 1'000 * mm);
  check("timber-thickness", timber_thickness, 1'000 * mm);
  check("timber-length", timber_length, 100'000 * mm);
  check("batten-spacing", batten_spacing, 100'000 * mm);
  check("screw-spacing", screw_spacing, 100'000 * mm);
  if (kerf < Length{} || kerf > 50 * mm) throw Error::out_of_range("kerf", text(kerf), "0 to 50 mm");
  const Length inside = board.height - timber_width.times(2);
  if (board.height <= least_size().height || board.width <= least_size().width) {
    const Length narrower = wall_rail ? std::min((board.width - wall_rail_play.times(4)).divided(2),
                                                 (board.height - wall_rail_play).divided(4))
                                      : std::min(board.width, board.height).divided(2);
    throw Error::bad_option(
        "timber-width",
        "two rails of " + text(timber_width) + (wall_rail ? " and one on the wall" : "") +
            " leave no room in a board of " + text(board.width) + " by " + text(board.height),
        (narrower > Length{} ? "take timber narrower than " + text(narrower) + ", " : std::string{}) +
            (wall_rail ? "hang it by hooks or a wire, or have no frame" : "or no frame"));
  }
  const Length longest = std::max(board.width, board.height);
  if (longest > timber_length) {
    throw Error::bad_option("timber-length",
                            text(timber_length) + " is less than the " + text(longest) + " of the longest rail",
                            "take timber of " + text(longest) + " or longer, or build the panel in two parts");
  }
  const bool mitred = corners == Corners::mitred;
  FrameTakeoff frame{
      .timber_width = timber_width, .timber_thickness = timber_thickness, .stock_length = timber_length, .kerf = kerf};
  frame.parts.push_back({"top and bottom rail", board.width, 2, mitred});
  frame.parts.push_back({"side rail", mitred ? board.height : inside, 2, mitred});
  std::int64_t fields = (board.width.um() + batten_spacing.um() - 1) / batten_spacing.um();
  if (free_middle && fields % 2 == 0) ++fields;  // an even number of battens leaves the middle between two
  for (std::int64_t i = 1; i < fields; ++i) frame.battens.push_back(board.width.times(i).divided(fields));
  if (wall_rail) {
    frame.batten_gap = timber_width + wall_rail_play;
    frame.wall_rail = board.width - timber_width.times(2) - wall_rail_play.times(2);
  }
  if (fields > 1) frame.parts.push_back({"batten", inside - frame.batten_gap, fields - 1, false});

  std::vector<LengthNeed> needs;
  const auto tenths = [](Length length) { return (length.um() + 50) / 100; };
  for (FramePart& part : frame.parts) {
    needs.push_back({part.length.um(), part.count});
    // A mitred rail is a trapezium: its middle line is a width shorter.
    const Length middle = part.mitred ? part.length - timber_width : part.length;
    frame.timber_mm3 += part.count * tenths(middle) * tenths(timber_width) / 100 * tenths(timber_thickness) / 10;
    part.screws = screws_on(part.length, screw_spacing);
    frame.screws += part.count * part.screws;
  }
  if (wall_rail) {  // on the wall: the panel does not carry it
    frame.parts.push_back({"wall rail", frame.wall_rail, 1, false});
    needs.push_back({frame.wall_rail.um(), 1});
  }
  frame.cuts = cut_lengths(needs, timber_length.um(), kerf.um());
  return frame;
}

}  // namespace handlaid
