// Threads, apart from the rest of core: splits rows among threads. The work of a row must not depend on another row.
#pragma once

#include <exception>
#include <string>
#include <vector>
#ifdef __STDCPP_THREADS__  // the standard's own word for "there can be more than one thread"; WebAssembly has one
#include <system_error>
#include <thread>
#endif

#include "handlaid/core/error.hpp"
#include "handlaid/core/work.hpp"

namespace handlaid {

/// Calls `body(first, last)` for bands that together cover 0…`count`-1, on up to `work.threads` threads.
/// Bands are equal in size and fixed by `count` and the number of threads alone. The first exception is passed on.
/// Where the system gives no more threads, the calling one does the rest.
/// Throws Error when `work.threads` is below 1.
template <class Body>
void for_each_band(int count, const Work& work, Body&& body) {
  if (work.threads < 1) throw Error::out_of_range("threads", std::to_string(work.threads), "1 or more");
  const int bands = work.threads < count ? work.threads : (count > 0 ? count : 1);
  if (bands == 1) {
    body(0, count);
    return;
  }
  std::vector<std::exception_ptr> failures(static_cast<std::size_t>(bands));
  const auto run = [&](int band) {
    const auto edge = [&](int b) { return static_cast<int>(static_cast<long long>(count) * b / bands); };
    try {
      body(edge(band), edge(band + 1));
    } catch (...) {
      failures[static_cast<std::size_t>(band)] = std::current_exception();
    }
  };
  int started = 1;
#ifdef __STDCPP_THREADS__
  std::vector<std::thread> threads;
  threads.reserve(static_cast<std::size_t>(bands));
  try {
    for (; started < bands; ++started) threads.emplace_back(run, started);
  } catch (const std::system_error&) {
  }
#endif
  run(0);
  for (int band = started; band < bands; ++band) run(band);
#ifdef __STDCPP_THREADS__
  for (std::thread& thread : threads) thread.join();
#endif
  for (const std::exception_ptr& failure : failures) {
    if (failure) std::rethrow_exception(failure);
  }
}

}  // namespace handlaid
