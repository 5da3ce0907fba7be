// The tables the program ships, read once a test program.
#pragma once

#include <gtest/gtest.h>

#include "tables/tables.hpp"

namespace undercroft::testing {

inline const tables::Tables& reference_tables() {
    static const Result<tables::Tables> k_tables = tables::load();
    static const tables::Tables k_none;
    if (!k_tables) ADD_FAILURE() << k_tables.error().where << ": " << k_tables.error().what;
    return k_tables ? *k_tables : k_none;
}

}  // namespace undercroft::testing
