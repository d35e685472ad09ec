// OpenCV's k-means in Oklab, one thread: ten rounds from one start, which is the usual call, for both kinds of start.
#include <opencv2/core.hpp>

#include "peers.hpp"

namespace {

using namespace handlaid;

std::vector<Srgb8> fit(const handlaid_bench::PeerInput& input, int colours, int start) {
  cv::setNumThreads(1);
  cv::theRNG().state = 1;  // the same palette each time
  const cv::Mat points(static_cast<int>(input.oklab.size() / 3), 3, CV_32F, const_cast<float*>(input.oklab.data()));
  const cv::TermCriteria rounds(cv::TermCriteria::COUNT, 10, 0);
  cv::Mat labels;
  cv::Mat centres;
  cv::kmeans(points, colours, labels, rounds, 1, start, centres);
  std::vector<Srgb8> palette;
  for (int i = 0; i < centres.rows; ++i) {
    palette.push_back(
        convert_colour<Srgb8>(Oklab{centres.at<float>(i, 0), centres.at<float>(i, 1), centres.at<float>(i, 2)}));
  }
  return palette;
}

const handlaid_bench::AddPeer random_starts({.name = "OpenCV kmeans", .fit = [](const auto& input, int colours) {
                                               return fit(input, colours, cv::KMEANS_RANDOM_CENTERS);
                                             }});
const handlaid_bench::AddPeer spread_starts({.name = "OpenCV kmeans ++", .fit = [](const auto& input, int colours) {
                                               return fit(input, colours, cv::KMEANS_PP_CENTERS);
                                             }});

}  // namespace
