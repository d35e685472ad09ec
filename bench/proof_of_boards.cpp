// Slips found and false alarms over the 200 made photos of boards of tests/support/made_board.hpp: the first 40 are in
// the tests. Sizes, palettes (nearest pair CIEDE2000 8 to 11), tilt to 30 degrees, light falling off to a half, cast,
// noise, blur and JPEG quality vary; half of the single wrong pieces are of the most similar colour.
#include <cstdio>
#include <cstdlib>

#include "support/proof_score.hpp"

using namespace handlaid_test;

int main(int argc, char** argv) {
  const int photos = argc > 1 ? std::atoi(argv[1]) : 200;
  ProofScore all;
  for (int index = 0; index < photos; ++index) {
    const ProofScore one = score_of_board(index);
    all += one;
    if (one.found * 20 < one.wrong * 19 || one.false_alarms * 100 > one.right) {
      std::printf("photo %d: %lld of %lld slips found, %lld of %lld right cells flagged\n", index,
                  static_cast<long long>(one.found), static_cast<long long>(one.wrong),
                  static_cast<long long>(one.false_alarms), static_cast<long long>(one.right));
    }
  }
  const auto percent = [](std::int64_t part, std::int64_t whole) {
    return whole == 0 ? 0.0 : 100.0 * static_cast<double>(part) / static_cast<double>(whole);
  };
  std::printf("%d photos, %lld wrong cells: %.2f %% found (at least 98 asked), %.2f %% named right\n", photos,
              static_cast<long long>(all.wrong), percent(all.found, all.wrong), percent(all.named, all.wrong));
  std::printf("%lld right cells: %.3f %% flagged (at most 1 asked); of all flags %.2f %% are false\n",
              static_cast<long long>(all.right), percent(all.false_alarms, all.right),
              percent(all.false_alarms, all.found + all.false_alarms));
}
