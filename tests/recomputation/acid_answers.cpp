// Prints random acid systems and what this program answers, one a line, for recompute_acids.py to work out again.
//   acid_answers COUNT
#include <cstdio>
#include <cstdlib>
#include <string>

#include "chem/acid_mix.hpp"
#include "tests/properties/split_mix.hpp"

namespace {

using undercroft::Temperature;
using undercroft::chem::AcidMix;
using undercroft::chem::AcidSystem;
using undercroft::chem::Activity;

double uniform(undercroft::testing::SplitMix64& random, double low, double high) {
    return low + (high - low) * static_cast<double>(random.next() >> 11U) * 0x1p-53;
}

}  // namespace

int main(int argc, char** argv) {
    const int wanted = argc > 1 ? std::atoi(argv[1]) : 1000;
    undercroft::testing::SplitMix64 random(20'260'314);
    std::printf("celsius,davies,abv");
    for (const auto acid : undercroft::chem::k_all_acids)
        std::printf(",%s", std::string(undercroft::chem::constants_of(acid).name).c_str());
    std::printf(",buffer_low,buffer_high,strong,salt,ph,ionic_strength,ta_82\n");
    for (int made = 0; made < wanted;) {
        const double celsius = uniform(random, 0.0, 40.0);
        const bool davies = !random.one_in(4);
        AcidMix mix;
        mix.abv = random.one_in(3) ? 0.0 : uniform(random, 0.0, 15.0);
        for (double& acid : mix.acids)
            if (random.one_in(2)) acid = uniform(random, 0.0, 0.06);
        if (random.one_in(2)) mix.buffer = {uniform(random, 0.0, 0.05), uniform(random, 0.0, 0.01)};
        mix.strong_ions = uniform(random, -0.01, 0.06);
        mix.inert_salt = uniform(random, 0.0, 0.02);
        const AcidSystem system({Temperature::from_celsius(celsius), davies ? Activity::davies : Activity::none});
        const auto state = system.state(mix);
        const auto ta = system.titratable(mix);
        if (!state || !ta) continue;
        ++made;
        std::printf("%.17g,%d,%.17g", celsius, davies ? 1 : 0, mix.abv);
        for (const double acid : mix.acids) std::printf(",%.17g", acid);
        std::printf(",%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g\n", mix.buffer.low, mix.buffer.high, mix.strong_ions,
                    mix.inert_salt, state->ph, state->ionic_strength, *ta);
    }
    return 0;
}
