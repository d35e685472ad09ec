// K-means beside what general-purpose libraries reach on the same cells of eight photos.
#include <algorithm>

#include "handlaid/palette/kmeans.hpp"
#include "support/catch.hpp"
#include "support/palette_error.hpp"
#include "support/pnm.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("k-means reaches the best of 200 random starts on eight photos, and the quick way stays near") {
  // Recorded by tests/data/record_kmeans.py: scikit-learn as it stops by itself, and run to the end.
  const Table reference("kmeans_reference.csv");
  REQUIRE(reference.size() > 0);
  for (std::size_t i = 0; i < reference.size(); ++i) {
    const int colours = reference.whole(i, "colours");
    const std::string& name = reference.text(i, "picture");
    if (colours == 64 && name != "astronaut" && name != "coffee") continue;  // two are enough of what takes longest
    const auto picture = read_pnm("cells/" + name + ".ppm");
    const auto histogram = count_colours(picture);
    const double least =
        std::min(reference.number(i, "best_of_200"), reference.number(i, "best_of_200_run_to_the_end"));
    const double best = palette_error(picture, KMeans{.colours = colours}(histogram));
    const double quick = palette_error(picture, KMeans{.colours = colours, .effort = Effort::quick}(histogram));
    INFO(name << ", " << colours << " colours: best " << best / least << ", quick " << quick / least);
    CHECK(best <= least * (colours >= 64 ? 1.0 : 1.005));
    CHECK(quick <= least * 1.03);
  }
}
