// A job: every option of a plan, as a maker writes them. An option that is not given is proposed (plan/propose).
// Read and written as a job file by files/job_file; the words, units and defaults stand in files/job_fields.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/paper.hpp"
#include "handlaid/takeoff/amounts.hpp"
#include "handlaid/takeoff/batches.hpp"
#include "handlaid/takeoff/blade_gang.hpp"
#include "handlaid/takeoff/board_growth.hpp"
#include "handlaid/takeoff/consumables.hpp"
#include "handlaid/takeoff/frame.hpp"
#include "handlaid/takeoff/hanging.hpp"
#include "handlaid/takeoff/labour.hpp"
#include "handlaid/takeoff/paint_days.hpp"
#include "handlaid/takeoff/painting.hpp"
#include "handlaid/takeoff/pilot.hpp"
#include "handlaid/takeoff/rolls.hpp"
#include "handlaid/takeoff/sheet_goods.hpp"
#include "handlaid/takeoff/strips.hpp"
#include "handlaid/takeoff/weight.hpp"

namespace handlaid {

/// How pieces come by their colours.
enum class Method {
  pieces,  ///< bought in their colours
  strips   ///< strips of a course are painted, mounted, and cut into pieces
};

/// How the palette is found.
enum class FitterChoice { kmeans, median_cut };

/// Which number each colour of the chart has.
enum class Numbering {
  as_found,  ///< as the palette was found: locked ones first, the others from dark to light
  clear      ///< so that alike colours have numbers that do not look alike; locked ones keep theirs
};

/// How a cell gets its number from the palette.
enum class DitherChoice {
  none,
  diffuse_floyd_steinberg,
  diffuse_jarvis_judice_ninke,
  diffuse_atkinson,
  ordered_bayer,
  ordered_blue_noise
};

/// A part of the picture in pixels, as read off the ruler: `right` and `bottom` are the first ones outside.
struct CropBox {
  int left = 0;
  int top = 0;
  int right = 0;
  int bottom = 0;
  constexpr int width() const { return right - left; }
  constexpr int height() const { return bottom - top; }
  friend constexpr bool operator==(const CropBox&, const CropBox&) = default;
};

/// A place in the picture, in pixels as read off the ruler.
struct CropFocus {
  int x = 0;
  int y = 0;
  friend constexpr bool operator==(const CropFocus&, const CropFocus&) = default;
};

/// The largest part of the picture that is `across` wide to `down` high, and as near as can be to centred on `focus`
/// (the middle of the picture where there is none).
struct CropAspect {
  int across = 1;
  int down = 1;
  std::optional<CropFocus> focus = {};
  friend constexpr bool operator==(const CropAspect&, const CropAspect&) = default;
};

/// A box or an aspect. (The header of std::variant, and its comparison, would weigh more than the whole job.)
class CropChoice {
 public:
  constexpr CropChoice() = default;
  constexpr CropChoice(const CropBox& box) : box_(box) {}
  constexpr CropChoice(const CropAspect& aspect) : aspect_(aspect), is_box_(false) {}
  /// The box, or nullptr where it is an aspect.
  constexpr const CropBox* box() const { return is_box_ ? &box_ : nullptr; }
  /// The aspect, or nullptr where it is a box.
  constexpr const CropAspect* aspect() const { return is_box_ ? nullptr : &aspect_; }
  friend constexpr bool operator==(const CropChoice&, const CropChoice&) = default;

 private:
  CropBox box_ = {};
  CropAspect aspect_ = {};
  bool is_box_ = true;
};

/// A colour that the palette must have: by its name in the stock, or by its colour.
struct ColourLock {
  /// Empty where the colour is given.
  std::string name = {};
  /// Only used where there is no name.
  Srgb8 colour = {};
  friend bool operator==(const ColourLock&, const ColourLock&) = default;
};

/// What is bought by the piece; 0: it is not reckoned.
struct Prices {
  double roll = 0;
  double sheet = 0;
  double timber = 0;
  friend constexpr bool operator==(const Prices&, const Prices&) = default;
};

/// How pages are printed.
struct Print {
  /// Letter where lengths are in inches, else A4, unless it is said.
  std::optional<Paper> paper = {};
  /// Whether templates are made; without a word, where pieces are laid and they are at most 999
  /// pages.
  std::optional<bool> templates = {};
  /// Cells filled with their colour: much ink.
  bool tint = false;
  /// Mirrored, for pieces that are laid face down.
  bool face_down = false;
  /// What the bars of a first print measured; without them it was true.
  std::optional<Length> bar_across = {};
  std::optional<Length> bar_up = {};
  friend constexpr bool operator==(const Print&, const Print&) = default;
};

/// All options of a plan. Paths are UTF-8, and relative to the job file where they come from one.
struct Job {
  std::optional<std::string> picture = {};
  /// What the panel is called on its pages.
  std::optional<std::string> title = {};
  std::optional<Method> method = {};
  /// What lengths are shown in, and the unit of numbers without one.
  std::optional<LengthUnit> units = {};

  // the board and its cells
  std::optional<Size> board = {};
  std::optional<int> columns = {};
  std::optional<int> rows = {};
  /// Distance of neighbouring columns; of courses too, unless `course_pitch` differs.
  std::optional<Length> pitch = {};
  std::optional<Length> course_pitch = {};

  // the picture
  std::optional<CropChoice> crop = {};
  /// Percent, -100 to 100; 0 leaves the picture as it is.
  std::optional<int> brightness = {};
  std::optional<int> contrast = {};
  std::optional<int> saturation = {};
  /// A colour of the picture that counts as transparent.
  std::optional<Srgb8> clear_colour = {};
  /// How near a colour must be to it, as a distance in Oklab: black to white is 1.
  std::optional<double> clear_tolerance = {};
  /// Laid under transparent parts; without it such cells stay empty.
  std::optional<Srgb8> ground = {};

  // the colours
  std::optional<int> colours = {};
  std::optional<std::string> stock = {};
  /// Colours that must be there and that any cell may take.
  std::vector<ColourLock> locks = {};
  /// Colours that must be there, for the cells of that very colour only.
  std::vector<ColourLock> exact_locks = {};
  /// Colours that must not be there, nor anything like them.
  std::vector<ColourLock> forbidden = {};
  /// Between any two colours, as a distance in Oklab: black to white is 1.
  std::optional<double> least_distance = {};
  /// A colour with fewer cells is given up.
  std::optional<int> least_cells = {};
  /// A picture of weights, as large as the picture.
  std::optional<std::string> importance = {};
  /// A file of changes that are made in the chart by hand (files/changes_file).
  std::optional<std::string> changes = {};
  std::optional<FitterChoice> fitter = {};
  std::optional<DitherChoice> dither = {};
  /// 0 to 1.
  std::optional<double> dither_strength = {};
  Numbering numbering = Numbering::as_found;

  /// How far away the panel is looked at.
  std::optional<Length> viewing_distance = {};

  // the takeoff
  /// What pieces or strips are made of, what glues and paints them, and what the board is: as the shop calls them.
  std::optional<std::string> material = {};
  std::optional<std::string> glue = {};
  std::optional<std::string> paint_kind = {};
  std::optional<std::string> board_kind = {};
  /// Who sells the packs of the stock.
  std::optional<std::string> shop = {};
  std::optional<int> pieces_per_cell = {};
  /// Share of pieces or strips lost or spoilt, 0 to below 1.
  std::optional<double> spares = {};
  /// How sure the spares are to be enough, for all colours together; above 0 and below 1.
  std::optional<double> spares_confidence = {};
  /// Beside each colour that is laid, at least.
  int least_spares = 0;
  /// What a piece takes of the stock's own unit.
  AmountEach piece_amount = {};
  /// Lot numbers as they stand on the packs, "name: lot".
  std::vector<std::string> lots = {};
  PilotPatch pilot = {};
  Consumables consumables = {};

  // only with the method of strips; a fold hides the raw edge and stands up from the board
  Strips strips = {.fold = Fold::lengthwise};
  Rolls rolls = {};
  BladeGang gang = {};
  Painting painting = {};
  Batches batches = {};
  PaintDays paint_days = {};

  // the board, what holds it and where it hangs
  Length board_thickness = 9 * mm;
  SheetGoods sheets = {};
  BoardGrowth growth = {};
  /// Whether there is a frame under the board; it is proposed where the timber is long enough.
  std::optional<bool> framed = {};
  Frame frame = {};
  Weight weight = {};
  Hanging hanging = {};

  Print print = {};

  // what it takes and costs
  Rates rates = {};
  Prices prices = {};

  friend bool operator==(const Job&, const Job&) = default;
};

}  // namespace handlaid
