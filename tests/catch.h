// One door to Catch2 for both Debian releases: 2.13 has one header, 3.x has several.
#pragma once
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif
