// The panel from stock sheets: whole where it fits, else of equal parts, so that joins are symmetric and none is a
// sliver. `SheetGoods{.sheet = {2'440 * mm, 1'220 * mm}}(panel)`
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// Where one part lies on a sheet.
struct SheetPlace {
  Length left = {};
  Length bottom = {};
  /// As it lies.
  Size size = {};
  friend bool operator==(const SheetPlace&, const SheetPlace&) = default;
};

/// How the panel is made of sheets.
struct SheetTakeoff {
  Size panel = {};
  Size sheet = {};
  Length kerf = {};
  /// Parts side by side and one above the other; 1 x 1 where there is no join.
  int parts_across = 1;
  int parts_up = 1;
  /// Of each part, as it stands in the panel.
  Size part = {};
  /// On a full sheet, or as many as there are; cut right through from edge to edge.
  std::vector<SheetPlace> layout = {};
  std::int64_t sheets = 0;
  /// By area: no way takes fewer.
  std::int64_t fewest_sheets = 0;

  std::int64_t parts() const { return std::int64_t{parts_across} * parts_up; }
  bool proven() const { return sheets == fewest_sheets; }
  friend bool operator==(const SheetTakeoff&, const SheetTakeoff&) = default;
};

/// Options of sheet goods.
struct SheetGoods {
  using is_stage = void;
  /// 2440 x 1220 mm is the usual metric size: common practice, no source. 4 x 8 ft are 1219.2 x 2438.4 mm.
  Size sheet = {2'440 * mm, 1'220 * mm};
  /// Lost at each saw cut: common practice, no source.
  Length kerf = Length::from_um(3'200);
  friend constexpr bool operator==(const SheetGoods&, const SheetGoods&) = default;

  /// Whether the panel can be made of 20 parts at most in either direction.
  constexpr bool takes(const Size& panel) const {
    const auto within = [](const Size& part, const Size& whole) {
      return part.width <= whole.width && part.height <= whole.height;
    };
    const Size part = {panel.width.divided(20), panel.height.divided(20)};
    const Length least = 10 * mm;
    const Length most = 100'000 * mm;
    return panel.width >= least && panel.height >= least && panel.width <= most && panel.height <= most &&
           (within(part, sheet) || within({part.height, part.width}, sheet));
  }

  /// Fewest sheets, then fewest parts, then fewest joins across. Throws Error for a size out of range, and a panel of
  /// over 20 parts in either direction.
  template <When = When::called>
  SheetTakeoff operator()(const Size& panel) const;
};

namespace detail {

/// Rows of parts that all lie the same way.
struct SheetRows {
  Length left = {};
  Length bottom = {};
  Size size = {};
  std::int64_t across = 0;
  std::int64_t up = 0;
  std::int64_t count() const { return across * up; }
};

/// Equal parts on one sheet: rows of them as they stand or turned, and the other way in what is left beside or above.
/// Rows, not parts: of small parts a large sheet holds more than can be listed.
template <When = When::called>
std::array<SheetRows, 2> rows_on_sheet(const Size& sheet, const Size& part, Length kerf) {
  std::array<SheetRows, 2> best;
  for (const bool turned : {false, true}) {
    const Size first = turned ? Size{part.height, part.width} : part;
    const Size other = {first.height, first.width};
    const auto rows = [&](Length left, Length bottom, const Size& size) {
      const Size room = {sheet.width - left, sheet.height - bottom};
      if (room.width < size.width || room.height < size.height) return SheetRows{};
      return SheetRows{left, bottom, size, (room.width + kerf).count_of(size.width + kerf),
                       (room.height + kerf).count_of(size.height + kerf)};
    };
    const SheetRows base = rows({}, {}, first);
    const Length beside = (first.width + kerf).times(base.across);
    const Length above = (first.height + kerf).times(base.up);
    for (const SheetRows& rest : {SheetRows{}, rows(beside, {}, other), rows({}, above, other)}) {
      if (base.count() + rest.count() > best[0].count() + best[1].count()) best = {base, rest};
    }
  }
  return best;
}

/// The first parts of the rows, at most so many.
template <When = When::called>
std::vector<SheetPlace> places_of(const std::array<SheetRows, 2>& all, Length kerf, std::int64_t most) {
  std::vector<SheetPlace> places;
  for (const SheetRows& rows : all) {
    for (std::int64_t i = 0; i < rows.count() && std::ssize(places) < most; ++i) {
      places.push_back({rows.left + (rows.size.width + kerf).times(i % rows.across),
                        rows.bottom + (rows.size.height + kerf).times(i / rows.across), rows.size});
    }
  }
  return places;
}

}  // namespace detail

template <When>
SheetTakeoff SheetGoods::operator()(const Size& panel) const {
  const auto text = [](const Size& size) { return to_text(size, LengthUnit::millimetres); };
  const auto check = [&](const char* name, const Size& size) {
    for (const Length side : {size.width, size.height}) {
      if (side < 10 * mm || side > 100'000 * mm) throw Error::out_of_range(name, text(size), "10 mm to 100 m a side");
    }
  };
  check("sheet", sheet);
  check("board", panel);
  if (kerf < Length{} || kerf > 50 * mm) {
    throw Error::out_of_range("kerf", to_text(kerf, LengthUnit::millimetres), "0 to 50 mm");
  }
  const auto area = [](const Size& size) { return (size.width.um() / 100) * (size.height.um() / 100); };
  SheetTakeoff best{.panel = panel, .sheet = sheet, .kerf = kerf};
  for (int up = 1; up <= 20; ++up) {
    for (int across = 1; across <= 20; ++across) {
      const Size part = {panel.width.divided(across), panel.height.divided(up)};
      const auto rows = detail::rows_on_sheet(sheet, part, kerf);
      const std::int64_t on_sheet = rows[0].count() + rows[1].count();
      if (on_sheet == 0) continue;
      const std::int64_t parts = std::int64_t{across} * up;
      const std::int64_t sheets = (parts + on_sheet - 1) / on_sheet;
      if (best.sheets > 0 && (sheets > best.sheets || (sheets == best.sheets && parts >= best.parts()))) continue;
      best.parts_across = across;
      best.parts_up = up;
      best.part = part;
      best.layout = detail::places_of(rows, kerf, parts);
      best.sheets = sheets;
    }
  }
  if (best.sheets == 0) {
    const Size least = {panel.width.divided(20), panel.height.divided(20)};
    throw Error::bad_option("sheet", text(sheet) + " is too small for a board of " + text(panel),
                            "take sheets of " + text(least) + " or larger, or build the panel in parts of their own");
  }
  best.fewest_sheets = (area(panel) + area(sheet) - 1) / area(sheet);
  return best;
}

}  // namespace handlaid
