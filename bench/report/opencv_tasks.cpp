// OpenCV on one thread: conversion to CIELAB, reducing by area, nearest colour by FLANN.
#include <memory>
#include <opencv2/core.hpp>
#include <opencv2/flann.hpp>
#include <opencv2/imgproc.hpp>

#include "inputs.hpp"
#include "tasks.hpp"

namespace {

using namespace handlaid;
using namespace handlaid_bench;

cv::Mat mat_of(const Raster<Srgb8>& raster) {
  cv::setNumThreads(1);
  return cv::Mat(raster.height(), raster.width(), CV_8UC3, const_cast<Srgb8*>(raster.pixels().data())).clone();
}

const AddTask lab("opencv lab", [](const Arguments& arguments) -> Task {
  cv::Mat codes = mat_of(megapixel());
  if (argument(arguments, 0) == "float") codes.convertTo(codes, CV_32F, 1.0 / 255);
  const auto out = std::make_shared<cv::Mat>();
  return {.run = [=] { cv::cvtColor(codes, *out, cv::COLOR_RGB2Lab); }};
});

const AddTask area("opencv area", [](const Arguments&) -> Task {
  const cv::Mat codes = mat_of(photo(12e6));
  const auto out = std::make_shared<cv::Mat>();
  return {.run = [=] { cv::resize(codes, *out, cv::Size(100, 167), 0, 0, cv::INTER_AREA); }};
});

const AddTask nearest("flann nearest", [](const Arguments& arguments) -> Task {
  cv::setNumThreads(1);
  const auto mat = [](const auto& colours) {
    cv::Mat points(static_cast<int>(colours.size()), 3, CV_32F);
    int row = 0;
    for (const Oklab& colour : colours) {
      points.at<float>(row, 0) = colour.L;
      points.at<float>(row, 1) = colour.a;
      points.at<float>(row++, 2) = colour.b;
    }
    return points;
  };
  const cv::Mat colours = mat(oklab_of(palette_from_photo(std::stoi(argument(arguments, 0)))));
  const cv::Mat points = mat(convert<Oklab>(megapixel()).pixels());
  return {.run = [=] {
    cv::flann::Index index(colours, cv::flann::KDTreeIndexParams(1));
    cv::Mat indices;
    cv::Mat distances;
    index.knnSearch(points, indices, distances, 1, cv::flann::SearchParams(32));
  }};
});

}  // namespace
