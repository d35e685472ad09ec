// Catch2 for our tests, the same in version 2 (one header) and version 3 (many). Include this, never Catch2 itself.
// Use what both have: TEST_CASE, SECTION, CHECK, REQUIRE, CHECK_THROWS_WITH, GENERATE, INFO, Approx, WithinAbs;
// and `contains`, whose name differs between them.
#pragma once

#if __has_include(<catch2/catch_test_macros.hpp>)
#include <catch2/catch_approx.hpp>
#include <catch2/catch_template_test_macros.hpp>
#include <catch2/catch_test_macros.hpp>
#include <catch2/generators/catch_generators_all.hpp>
#include <catch2/matchers/catch_matchers_all.hpp>
using Catch::Approx;  // as version 2 has it
#else
#include <catch2/catch.hpp>
#endif

#include <string>

namespace handlaid_test {

using Catch::Matchers::WithinAbs;

/// Matches a text that holds `part`: CHECK_THROWS_WITH(read("x"), contains("x")).
inline auto contains(const std::string& part) {
#if __has_include(<catch2/catch_test_macros.hpp>)
  return Catch::Matchers::ContainsSubstring(part);
#else
  return Catch::Matchers::Contains(part);
#endif
}

}  // namespace handlaid_test
