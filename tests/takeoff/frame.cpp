#include "handlaid/takeoff/frame.hpp"

#include "handlaid/takeoff/sheet_goods.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

TEST_CASE("a frame of dressed 1 x 2 under a board of 800 x 600 mm, butted") {  // DOC PS 20: 19 x 38 mm
  const FrameTakeoff frame = Frame{}({800 * mm, 600 * mm});
  CHECK(frame.parts == std::vector<FramePart>{{"top and bottom rail", 800 * mm, 2, false, 6},
                                              {"side rail", 524 * mm, 2, false, 4},
                                              {"batten", 524 * mm, 1, false, 4}});
  CHECK(frame.battens == std::vector<Length>{400 * mm});
  // 2 x 800 + 3 x 524 = 3172 mm and kerfs: two lengths of 2400
  CHECK(frame.cuts.stock_count == 2);
  CHECK(frame.cuts.proven());
  CHECK(frame.timber_mm3 == 3'172 * 38 * 19);
  CHECK(frame.screws == 2 * 6 + 3 * 4);  // 700 mm between the outer ones, in steps of 150 at most: 6 screws; 424: 4
  for (const CutPattern& pattern : frame.cuts.patterns) CHECK(pattern.left_over >= 0);
}

TEST_CASE("mitred corners are measured between the long points") {
  const FrameTakeoff frame = Frame{.corners = Corners::mitred, .batten_spacing = 1'000 * mm}({800 * mm, 600 * mm});
  CHECK(frame.parts ==
        std::vector<FramePart>{{"top and bottom rail", 800 * mm, 2, true, 6}, {"side rail", 600 * mm, 2, true, 5}});
  // Both ways of joining hold the same timber: the ring between 800 x 600 and 724 x 524.
  CHECK(frame.timber_mm3 == (800 * 600 - 724 * 524) * 19);
  CHECK(frame.battens.empty());
}

TEST_CASE("a wall rail is cut with the frame, and nothing stands where it goes") {
  const FrameTakeoff frame = Frame{.wall_rail = true}({800 * mm, 600 * mm});
  CHECK(frame.parts == std::vector<FramePart>{{"top and bottom rail", 800 * mm, 2, false, 6},
                                              {"side rail", 524 * mm, 2, false, 4},
                                              {"batten", 476 * mm, 1, false, 4},
                                              {"wall rail", 704 * mm, 1, false, 0}});
  // As places, from the lower edge: the rail rests under the top rail, the battens end below it, with play between.
  const Length under_top_rail = 562 * mm;
  const Length batten_top = 38 * mm + frame.parts[2].length;
  CHECK(under_top_rail - frame.timber_width - batten_top == wall_rail_play);
  CHECK(frame.wall_rail + wall_rail_play.times(2) == 800 * mm - frame.timber_width.times(2));
  CHECK(frame.timber_mm3 == (2 * 800 + 2 * 524 + 476) * 38 * 19);  // what the panel carries
  std::int64_t used = 0;
  for (const CutPattern& pattern : frame.cuts.patterns) used += pattern.times * pattern.counts.back();
  CHECK(used == 1);
  // Two rails, the wall rail and as much of a batten fit into 162 mm; a millimetre more is a board.
  CHECK_FALSE(Frame{.wall_rail = true}.fits({800 * mm, 162 * mm}));
  CHECK(Frame{.wall_rail = true}.fits({800 * mm, 163 * mm}));
  CHECK(Frame{.wall_rail = true}({800 * mm, 163 * mm}).parts.size() == 4);
  CHECK_THROWS_WITH((Frame{.wall_rail = true}({800 * mm, 162 * mm})),
                    contains("two rails of 38 mm and one on the wall leave no room in a board of 800 mm by 162 mm; "
                             "take timber narrower than 38 mm, hang it by hooks or a wire"));
}

TEST_CASE("screws that keep a panel on its rail meet no others") {
  for (const int width : {400, 500, 611, 792, 800, 955, 1'200, 1'731, 2'390}) {
    for (const int spacing : {60, 100, 150, 151, 400}) {
      for (const int wall : {1, 2, 3, 5}) {
        const Frame options{.screw_spacing = spacing * mm, .wall_rail = true};
        const FrameTakeoff frame = options({width * mm, 600 * mm});
        const Length place = keeper_place(frame, wall);
        INFO(width << " wide, " << spacing << " apart, " << wall << " in the wall");
        const auto apart = [](Length a, Length b) { return a < b ? b - a : a - b; };
        // from the left edge of the panel: the rail begins beside the side rail and its play
        for (const Length screw : screws_along(frame.wall_rail, wall)) {
          CHECK(apart(place, screw + frame.timber_width + wall_rail_play) >= 10 * mm);
        }
        for (const Length screw : screws_along(width * mm, frame.parts[0].screws)) {
          CHECK(apart(place, screw) >= 12 * mm);
        }
        CHECK(place > frame.timber_width + wall_rail_play);
        CHECK(place.times(2) < width * mm);
      }
    }
  }
}

TEST_CASE("the middle is kept free where a hook goes in") {
  for (const std::int64_t width : {300, 540, 800, 801, 1'200, 1'300, 2'000, 2'399}) {
    const Length wide = (1 * mm).times(width);
    const FrameTakeoff usual = Frame{}({wide, 600 * mm});
    const FrameTakeoff frame = Frame{.free_middle = true}({wide, 600 * mm});
    INFO(width);
    CHECK(frame.battens.size() % 2 == 0);
    CHECK(frame.battens.size() - usual.battens.size() <= 1);  // one more where there was one in the middle
    Length last;
    for (const Length batten : frame.battens) {
      CHECK(batten - last <= 400 * mm);
      const Length from_middle = batten.times(2) < wide ? wide - batten.times(2) : batten.times(2) - wide;
      CHECK(from_middle > frame.timber_width.times(2));
      last = batten;
    }
  }
}

TEST_CASE("timber that is too short, or too wide, is refused with both sides named") {
  CHECK_THROWS_WITH((Frame{.timber_length = 700 * mm}({800 * mm, 600 * mm})),
                    contains("timber-length: 700 mm is less than the 800 mm of the longest rail"));
  CHECK_THROWS_WITH(Frame{}({800 * mm, 76 * mm}), contains("two rails of 38 mm leave no room in a board of 800 mm by "
                                                           "76 mm; take timber narrower than 38 mm, or no frame"));
  CHECK_THROWS_WITH((Frame{.batten_spacing = Length{}}({800 * mm, 600 * mm})), contains("batten-spacing: 0 mm"));
}

TEST_CASE("a panel that fits a sheet is cut whole, either way round") {
  const SheetTakeoff lying = SheetGoods{}({1'500 * mm, 800 * mm});
  CHECK(lying.sheets == 1);
  CHECK(lying.parts() == 1);
  const SheetTakeoff standing = SheetGoods{}({750 * mm, 1'252.5 * mm});
  CHECK(standing.sheets == 1);
  CHECK(standing.layout.at(0).size == Size{1'252.5 * mm, 750 * mm});
  CHECK(standing.proven());
}

TEST_CASE("a larger panel is made of equal parts that all lie on their sheets") {
  for (const Size panel : {Size{3'000 * mm, 2'000 * mm}, Size{5'000 * mm, 1'300 * mm}, Size{2'500 * mm, 2'500 * mm}}) {
    const SheetTakeoff takeoff = SheetGoods{}(panel);
    CHECK(takeoff.sheets >= takeoff.fewest_sheets);
    CHECK(takeoff.parts() > 1);
    CHECK(takeoff.sheets * static_cast<std::int64_t>(takeoff.layout.size()) >= takeoff.parts());
    for (std::size_t i = 0; i < takeoff.layout.size(); ++i) {
      const SheetPlace& a = takeoff.layout[i];
      CHECK(a.left + a.size.width <= takeoff.sheet.width);
      CHECK(a.bottom + a.size.height <= takeoff.sheet.height);
      CHECK(std::max(a.size.width, a.size.height) == std::max(takeoff.part.width, takeoff.part.height));
      for (std::size_t j = 0; j < i; ++j) {  // a kerf between any two
        const SheetPlace& b = takeoff.layout[j];
        const bool apart =
            a.left >= b.left + b.size.width + takeoff.kerf || b.left >= a.left + a.size.width + takeoff.kerf ||
            a.bottom >= b.bottom + b.size.height + takeoff.kerf || b.bottom >= a.bottom + a.size.height + takeoff.kerf;
        CHECK(apart);
      }
    }
  }
  // 3 x 2 m are 6 m2, sheets are 2.98 m2: three by area; halves of 1.5 x 2 m do not fit, six of 1 x 1 m lie two on one.
  CHECK(SheetGoods{}({3'000 * mm, 2'000 * mm}).fewest_sheets == 3);
  CHECK(SheetGoods{}({3'000 * mm, 2'000 * mm}).sheets == 3);
}

TEST_CASE("a small board from a large sheet is one part") {
  const SheetTakeoff takeoff = SheetGoods{.sheet = {100'000 * mm, 100'000 * mm}}({10 * mm, 10 * mm});
  CHECK(takeoff.sheets == 1);
  CHECK(takeoff.layout == std::vector<SheetPlace>{{.size = {10 * mm, 10 * mm}}});
}

TEST_CASE("sheets of no use are refused") {
  CHECK_THROWS_WITH((SheetGoods{.sheet = {20 * mm, 20 * mm}}({3'000 * mm, 2'000 * mm})),
                    contains("is too small for a board of 3000 x 2000 mm; take sheets of 150 x 100 mm or larger"));
  CHECK(SheetGoods{.sheet = {150 * mm, 100 * mm}}({3'000 * mm, 2'000 * mm}).sheets == 400);
  CHECK_THROWS_WITH((SheetGoods{.sheet = {}}({3'000 * mm, 2'000 * mm})), contains("sheet: 0 x 0 mm"));
}
