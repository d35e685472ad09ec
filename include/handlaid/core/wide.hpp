// One plain loop, compiled for the processor that every build must run on and again for AVX2 and AVX-512, which take
// eight and sixteen floats at a time. Which of them runs is decided when the program runs; what they write is the same.
#pragma once

namespace handlaid::detail {

#if defined(__GNUC__) && defined(__x86_64__)
template <class Loop>
[[gnu::target("avx2"), gnu::flatten, gnu::noinline]] void run_with_avx2(const Loop& loop) {
  loop();
}
template <class Loop>
[[gnu::target("avx512f,avx512bw,avx512dq,avx512vl"), gnu::flatten, gnu::noinline]] void run_with_avx512(
    const Loop& loop) {
  loop();
}
#endif

/// How many floats the widest registers take: 16, 8, or 4 where nothing better is known.
inline int wide_lanes() {
#if defined(__GNUC__) && defined(__x86_64__)
  if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512bw") && __builtin_cpu_supports("avx512dq") &&
      __builtin_cpu_supports("avx512vl")) {
    return 16;
  }
  if (__builtin_cpu_supports("avx2")) return 8;
#endif
  return 4;
}

/// Calls `loop()`, compiled for the widest registers that the processor has. The loop must hold to what is exact or
/// rounded once (colour/steady_float.hpp), so that no instruction set shows in its result.
template <class Loop>
void run_wide(const Loop& loop) {
#if defined(__GNUC__) && defined(__x86_64__)
  const int lanes = wide_lanes();
  if (lanes == 16) {
    run_with_avx512(loop);
    return;
  }
  if (lanes == 8) {
    run_with_avx2(loop);
    return;
  }
#endif
  loop();
}

}  // namespace handlaid::detail
