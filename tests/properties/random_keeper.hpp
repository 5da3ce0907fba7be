// A keeper who asks for sittings at random, in words, as a face would pass them on. Many are refused.
#pragma once

#include <string>

#include "app/act.hpp"
#include "app/views.hpp"
#include "tables/tables.hpp"
#include "tests/properties/split_mix.hpp"

namespace undercroft::testing {

class RandomKeeper {
public:
    RandomKeeper(std::uint64_t seed, const tables::Tables& tables) : m_random(seed), m_tables(tables) {}

    // Given what stands in the cellar.
    app::SittingRequest some_sitting(const app::CellarView& cellar);
    SplitMix64& random() { return m_random; }

private:
    app::Act some_act(const app::CellarView& cellar);
    app::Act some_lot(const app::CellarView& cellar);
    app::Act some_move(const app::CellarView& cellar);
    app::Act some_addition(const app::CellarView& cellar);
    app::Act some_package(const app::CellarView& cellar);
    const app::VesselSummary& some_vessel(const app::CellarView& cellar);
    std::string some_volume(Volume most);
    std::string some_entry(const app::CellarView& cellar);
    std::string some_person();

    SplitMix64 m_random;
    const tables::Tables& m_tables;
    int m_names = 0;
};

}  // namespace undercroft::testing
