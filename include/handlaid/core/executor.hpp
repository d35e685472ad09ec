// Threads, apart from the rest of core: splits rows among threads. The work of a row must not depend on another row.
#pragma once

#include <exception>
#include <string>
#include <type_traits>
#include <vector>
#ifdef __STDCPP_THREADS__  // the standard's own word for "there can be more than one thread"; WebAssembly has one
#include <pthread.h>       // <thread> would add a third of a second to every file
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
  struct Band {
    std::remove_reference_t<Body>* body = nullptr;
    int first = 0;
    int last = 0;
    std::exception_ptr failure = {};

    static void* run(void* self) noexcept {
      Band& band = *static_cast<Band*>(self);
      try {
        (*band.body)(band.first, band.last);
      } catch (...) {
        band.failure = std::current_exception();
      }
      return nullptr;
    }
  };
  std::vector<Band> shares(static_cast<std::size_t>(bands));
  for (int band = 0; band < bands; ++band) {
    const auto edge = [&](int b) { return static_cast<int>(static_cast<long long>(count) * b / bands); };
    shares[static_cast<std::size_t>(band)] = {.body = &body, .first = edge(band), .last = edge(band + 1)};
  }
  std::size_t started = 1;
#ifdef __STDCPP_THREADS__
  std::vector<pthread_t> threads(shares.size());
  while (started < shares.size() && pthread_create(&threads[started], nullptr, &Band::run, &shares[started]) == 0) {
    ++started;
  }
#endif
  Band::run(&shares[0]);
  for (std::size_t band = started; band < shares.size(); ++band) Band::run(&shares[band]);
#ifdef __STDCPP_THREADS__
  for (std::size_t band = 1; band < started; ++band) pthread_join(threads[band], nullptr);
#endif
  for (const Band& band : shares) {
    if (band.failure) std::rethrow_exception(band.failure);
  }
}

}  // namespace handlaid
