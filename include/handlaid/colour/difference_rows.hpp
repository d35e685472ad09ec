// CIEDE2000 of many pairs of colours at once, without a trigonometric function: hues stay vectors, and multiples of the
// mean hue follow from its cosine and sine. To report, like `ciede2000`: bits may differ between builds.
#pragma once

#include <algorithm>
#include <cstddef>
#include <span>

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/steady_float.hpp"
#include "handlaid/core/wide.hpp"

namespace handlaid {

namespace detail {

/// 1 / sqrt(x) to 2e-7 of itself, for x from 1e-30 to 1e30; finite for 0. From the bits by three steps of Newton.
constexpr float inverse_root(float x) {
  float y = std::bit_cast<float>(0x5f3759df - (std::bit_cast<std::int32_t>(x) >> 1));
  y = y * (1.5F - 0.5F * x * y * y);
  y = y * (1.5F - 0.5F * x * y * y);
  return y * (1.5F - 0.5F * x * y * y);
}
constexpr float root(float x) { return x * inverse_root(x); }

/// sqrt(c^7 / (c^7 + 25^7)).
constexpr float chroma_share(float c) {
  const float seventh = c * c * c * c * c * c * c;
  return root(seventh / (seventh + 6103515625.0F));
}

/// e^x, x from -80 to 0, to 1e-6 of itself.
constexpr float small_exp(float x) {
  const float twos = x * 1.44269504F;
  const auto whole = static_cast<std::int32_t>(twos - 0.5F);
  const float f = (twos - static_cast<float>(whole)) * 0.69314718F;  // the rest, within +-0.35
  const float power = 1 + f * (1 + f * (0.5F + f * (1.0F / 6 + f * (1.0F / 24 + f * (1.0F / 120 + f * (1.0F / 720))))));
  return power * std::bit_cast<float>((whole + 127) << 23);
}

/// The sine of 60 degrees times exp(-((h - 275) / 25)^2), from the cosine of h - 275 degrees.
constexpr float blue_turn(float cosine) {
  const float q = 1 - cosine;
  // The angle squared: 2 sum of (2 q)^n / (n^2 C(2 n, n)).
  const float angle2 =
      q * (2 + q * (1.0F / 3 +
                    q * (4.0F / 45 + q * (1.0F / 35 + q * (0.01015873F +
                                                           q * (0.00384800F + q * (0.00152230F + q * 0.00062160F)))))));
  const float narrow = 5.2524969F * angle2;  // (180 / 25 / pi)^2
  const float x = 1.04719755F * small_exp(-held(narrow, 80));
  const float xx = x * x;
  return x * (1 - xx * (1.0F / 6 - xx * (1.0F / 120 - xx * (1.0F / 5040 - xx * (1.0F / 362880)))));
}

/// One pair, by the steps and with the names of `ciede2000`.
[[gnu::always_inline]] constexpr float fast_ciede2000(float L1, float a1, float b1, float L2, float a2, float b2) {
  const float stretch = 1.5F - 0.5F * chroma_share((root(a1 * a1 + b1 * b1) + root(a2 * a2 + b2 * b2)) * 0.5F);
  const float x1 = stretch * a1;
  const float x2 = stretch * a2;
  const float c1 = root(x1 * x1 + b1 * b1);
  const float c2 = root(x2 * x2 + b2 * b2);

  // Hues as vectors: their product across says which way round the shorter turn goes; opposite hues turn upwards from
  // the one between 0 and 180 degrees.
  const float across = cut_product(x1, b2 - b1) - cut_product(b1, x2 - x1);
  const float along = x1 * x2 + b1 * b2;
  const float way = sign(pick(across == 0, pick(b1 == 0, x1, b1), across));
  const bool near = along > 0;
  // sqrt(c1 c2) times the sine of half the turn, by whichever formula keeps its digits.
  const float half = (c1 * c2 + magnitude(along)) * 0.5F;
  const float inverse = inverse_root(half);
  const float delta_h = pick(near, across * inverse, 2 * way * half * inverse);
  // The mean hue lies along the sum of both directions, or square to their difference.
  const float sum_x = x1 * c2 + x2 * c1;
  const float sum_y = b1 * c2 + b2 * c1;
  const float square_x = way * (b2 * c1 - b1 * c2);
  const float square_y = way * (x1 * c2 - x2 * c1);
  const bool grey = c1 * c2 == 0;
  const float mean_x = pick(grey, x1 + x2, pick(near, sum_x, square_x));
  const float mean_y = pick(grey, b1 + b2, pick(near, sum_y, square_y));
  const float length = inverse_root(mean_x * mean_x + mean_y * mean_y);
  const float cos1 = mean_x * length;
  const float sin1 = mean_y * length;
  const float cos2 = cos1 * cos1 - sin1 * sin1;
  const float sin2 = 2 * sin1 * cos1;
  const float cos3 = cos1 * cos2 - sin1 * sin2;
  const float sin3 = sin1 * cos2 + cos1 * sin2;
  const float cos4 = cos2 * cos2 - sin2 * sin2;
  const float sin4 = 2 * sin2 * cos2;
  // Cosines and sines of 30, 6, 63 and 275 degrees.
  const float t = 1 - 0.17F * (0.86602540F * cos1 + 0.5F * sin1) + 0.24F * cos2 +
                  0.32F * (0.99452190F * cos3 - 0.10452846F * sin3) - 0.20F * (0.45399050F * cos4 + 0.89100652F * sin4);
  const float c = (c1 + c2) * 0.5F;
  const float l = (L1 + L2) * 0.5F - 50;
  const float s_l = 1 + 0.015F * l * l * inverse_root(20 + l * l);
  const float part_l = (L2 - L1) / s_l;
  const float part_c = (c2 - c1) / (1 + 0.045F * c);
  const float part_h = pick(grey, 0, delta_h) / (1 + 0.015F * c * t);
  // The published angle is not taken round the circle: hues from 0 on are far from 275.
  const float turn = pick(sin1 < 0, blue_turn(0.08715574F * cos1 - 0.99619470F * sin1), 0);
  const float rotation = -2 * chroma_share(c) * turn;
  const float sum = part_l * part_l + part_c * part_c + part_h * part_h + rotation * part_c * part_h;
  return root(pick(sum > 0, sum, 0));
}

}  // namespace detail

/// The CIEDE2000 difference (CIE 142-2001; Sharma, Wu, Dalal 2005) of each colour of `p` to that of the same place in
/// `q`; `q` and `differences` have at least as many. Within 1e-4 of `ciede2000` for |a| and |b| up to 128.
template <class White>
void ciede2000_row(std::span<const Lab<White>> p, std::span<const Lab<White>> q, std::span<float> differences) {
  constexpr std::size_t part = 256;
  float of_p[3][part] = {};
  float of_q[3][part] = {};
  float out[part] = {};
  for (std::size_t first = 0; first < p.size(); first += part) {
    const std::size_t count = std::min(part, p.size() - first);
    const Lab<White>* from_p = p.data() + first;
    const Lab<White>* from_q = q.data() + first;
    detail::run_wide([&of_p, &of_q, &out, from_p, from_q, count] {
      for (std::size_t i = 0; i < count; ++i) {
        of_p[0][i] = from_p[i].L;
        of_p[1][i] = from_p[i].a;
        of_p[2][i] = from_p[i].b;
      }
      for (std::size_t i = 0; i < count; ++i) {
        of_q[0][i] = from_q[i].L;
        of_q[1][i] = from_q[i].a;
        of_q[2][i] = from_q[i].b;
      }
      for (std::size_t i = 0; i < part; ++i) {
        out[i] = detail::fast_ciede2000(of_p[0][i], of_p[1][i], of_p[2][i], of_q[0][i], of_q[1][i], of_q[2][i]);
      }
    });
    std::copy(out, out + count, differences.begin() + static_cast<std::ptrdiff_t>(first));
  }
}

}  // namespace handlaid
