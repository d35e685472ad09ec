// How a pipeline is run, apart from what it computes: threads, progress, stopping. Passed once, beside the value.
// Results never depend on it.
#pragma once

#include <concepts>
#include <type_traits>

namespace handlaid {

/// Borrows a callable `bool f(const char* step, double done)`, done from 0 to 1. It returns false to stop the work.
/// The callable must outlive the call it is passed to; it may be called from the calling thread only.
class ProgressRef {
 public:
  ProgressRef() = default;
  template <class F>
    requires(!std::same_as<std::remove_cvref_t<F>, ProgressRef> && std::is_invocable_r_v<bool, F&, const char*, double>)
  ProgressRef(F& callable)  // NOLINT(google-explicit-constructor): `.progress = f` is the intended spelling
      : callable_(const_cast<void*>(static_cast<const void*>(&callable))),
        call_([](void* f, const char* step, double done) -> bool { return (*static_cast<F*>(f))(step, done); }) {}

  bool operator()(const char* step, double done) const { return call_ == nullptr || call_(callable_, step, done); }

 private:
  void* callable_ = nullptr;
  bool (*call_)(void*, const char*, double) = nullptr;
};

/// Options of one run.
struct Work {
  /// Threads to use, 1 or more. The bytes of the result are the same for any number.
  int threads = 1;
  /// Told how far a step is; says whether to go on.
  ProgressRef progress = {};
};

}  // namespace handlaid
