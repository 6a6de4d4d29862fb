// SPDX-License-Identifier: AGPL-3.0-or-later
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
