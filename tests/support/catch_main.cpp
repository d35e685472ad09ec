// The test runner of Catch2 version 2, compiled once; version 3 brings its own.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
