#include "engine/state/state.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "base/index.hpp"
#include "chem/extract.hpp"
#include "chem/gas.hpp"
#include "chem/root.hpp"
#include "chem/sugar.hpp"
#include "engine/state/alive.hpp"
#include "engine/state/entering.hpp"

namespace undercroft::engine {
namespace {

using ledger::FlowKind;

constexpr double k_equal_gravity = 0.0005;  // the resolution two readings are compared at
constexpr double k_equal_days = 2.0;
constexpr double k_gravity_reached = 1e-6;  // far below what any hydrometer shows
// 67 % by mass of SG 1.33: sugar solution takes no more, and crystals fall out (from memory).
constexpr double k_saturated_extract_g_per_l = 890.0;
constexpr double k_most_ethanol_g_per_l = 200.0;  // 25 % vol: drier than any reading that is taken

double mixed(double there, double coming, double weight) {
    return there + (coming - there) * weight;
}

double litres(Volume volume) {
    return volume.in_litres();
}

// Mean by volume; unknown on either side is unknown.
std::optional<Estimate> mix(const std::optional<Estimate>& there, const std::optional<Estimate>& coming,
                            double weight) {
    if (weight >= 1.0) return coming;
    if (!there || !coming) return std::nullopt;
    Estimate result;
    result.mean = mixed(there->mean, coming->mean, weight);
    result.sd = mixed(there->sd, coming->sd, weight);
    result.provenance = Provenance::mixed;
    result.read_at = there->read_at;
    result.why = "by volume from what was poured together";
    return result;
}

class Filter {
public:
    Filter(StateBook& states, const ledger::Cellar& cellar) : m_cellar(cellar), m_states(states) {
        m_states.vessels.resize(cellar.vessels.size());
        m_states.runs.resize(cellar.runs.size());
        m_states.unclean.resize(cellar.vessels.size(), false);
        m_states.stock.resize(cellar.vessels.size());
    }

    void run() {
        std::size_t& next_flow = m_states.flows_seen;
        for (std::size_t& i = m_states.entries_seen; i < m_cellar.entries.size(); ++i) {
            m_index = static_cast<int>(i);
            m_now = m_cellar.entries[i]->at();
            for (; next_flow < m_cellar.flows.size() && m_cellar.flows[next_flow].entry == static_cast<int>(i);
                 ++next_flow) {
                follow(m_cellar.flows[next_flow], *m_cellar.entries[i]);
                engine::follow(m_states.stock, m_cellar, m_cellar.flows[next_flow]);
            }
            engine::follow(m_states.stock, m_cellar, *m_cellar.entries[i]);
            for (std::size_t& next = m_states.arrivals_seen;
                 next < m_cellar.arrivals.size() && m_cellar.arrivals[next].entry == static_cast<int>(i); ++next)
                arrive(m_cellar.arrivals[next]);
            std::visit([this, i](const auto& body) { look(body, *m_cellar.entries[i]); }, m_cellar.entries[i]->body);
        }
    }

private:
    LiquidState& vessel(int index) { return m_states.vessels[at(index)]; }
    LiquidState& run_at(int index) { return m_states.runs[at(index)]; }

    void follow(const ledger::Flow& flow, const ledger::Entry& entry) {
        switch (flow.kind) {
            case FlowKind::lot: {
                const auto& lot = std::get<ledger::LotEnters>(entry.body);
                // Of liquid of no known kind as little is known as of a beer nobody described.
                const bool as_beer = lot.kind == ledger::LotKind::beer || lot.kind == ledger::LotKind::unknown;
                pour_into_vessel(flow.to_vessel, as_beer ? of_beer(lot) : of_other(lot), flow.volume);
                break;
            }
            case FlowKind::found: {
                if (flow.to_run >= 0) {
                    run_at(flow.to_run).volume += flow.volume;
                    break;
                }
                LiquidState& there = vessel(flow.to_vessel);
                if (there.volume == Volume{}) {
                    ledger::LotEnters found;
                    found.name = "what was found";
                    pour_into_vessel(flow.to_vessel, of_beer(found), flow.volume);
                } else {
                    there.volume += flow.volume;  // as the vessel's own
                }
                break;
            }
            case FlowKind::addition:
                pour_into_vessel(flow.to_vessel, of_addition(std::get<ledger::Addition>(entry.body)), flow.volume);
                break;
            case FlowKind::move: {
                const LiquidState leaving = vessel(flow.from_vessel);
                take_from_vessel(flow.from_vessel, flow.volume);
                pour_into_vessel(flow.to_vessel, leaving, flow.volume);
                break;
            }
            case FlowKind::package: {
                const LiquidState leaving = vessel(flow.from_vessel);
                take_from_vessel(flow.from_vessel, flow.volume);
                run_at(flow.to_run) = leaving;
                run_at(flow.to_run).volume = flow.volume;
                run_at(flow.to_run).here_since = m_now;
                break;
            }
            case FlowKind::priming: {
                const auto& package = std::get<ledger::Package>(entry.body);
                LiquidState syrup;
                const double grams = package.priming_sugar.in_grams();
                syrup.composition = chem::Composition{0.0, grams / litres(flow.volume)};
                syrup.gravity_provenance = syrup.alcohol_provenance = Provenance::stated;
                syrup.ibu = syrup.ta = syrup.colour_ebc = exactly_none();
                LiquidState& run = run_at(flow.to_run);
                // Priming is counted apart: it does not undo the evidence, and a percent of unbuffered sugar
                // solution moves no pH that a meter would show.
                const LiquidState unprimed = run;
                pour(run, syrup, flow.volume);
                run.here_since = unprimed.here_since;
                run.watch = unprimed.watch;
                run.temperatures_c = unprimed.temperatures_c;
                run.dissolved_co2_g_per_l = unprimed.dissolved_co2_g_per_l;  // but what eats the sugar is awake
                run.ph = unprimed.ph;
                run.original_gravity = unprimed.original_gravity;
                if (unprimed.gravity_provenance == Provenance::assumed) run.gravity_provenance = Provenance::assumed;
                break;
            }
            case FlowKind::returned: {
                LiquidState leaving = run_at(flow.from_run);
                take(run_at(flow.from_run), flow.volume);
                pour_into_vessel(flow.to_vessel, leaving, flow.volume);
                break;
            }
            case FlowKind::taken:
                take(run_at(flow.from_run), flow.volume);
                break;
            case FlowKind::loss: {
                LiquidState& there = vessel(flow.from_vessel);
                if (flow.cause == ledger::LossCause::evaporation) concentrate(there, flow.volume);
                take_from_vessel(flow.from_vessel, flow.volume);
                break;
            }
        }
    }

    // What rode in on gear is met like a culture that is pitched.
    void arrive(const ledger::Arrival& arrival) {
        restart_watch(arrival.run >= 0 ? run_at(arrival.run) : vessel(arrival.vessel));
        if (arrival.vessel >= 0 && vessel(arrival.vessel).volume == Volume{})
            m_states.unclean[at(arrival.vessel)] = true;
    }

    void take_from_vessel(int index, Volume volume) {
        take(vessel(index), volume);
        if (vessel(index).volume == Volume{}) m_states.unclean[at(index)] = true;
    }

    // What lives in the residue of a vessel that was not cleaned meets the liquid like a culture that is pitched.
    void pour_into_vessel(int index, const LiquidState& coming, Volume volume) {
        const bool onto_residue = m_states.unclean[at(index)] && vessel(index).volume == Volume{};
        pour(vessel(index), coming, volume);
        if (onto_residue) restart_watch(vessel(index));
        m_states.unclean[at(index)] = false;
    }

    static void take(LiquidState& there, Volume volume) {
        there.volume -= volume;
        if (there.volume == Volume{}) there = LiquidState{};
    }

    // Water and ethanol leave together (below about 60 % humidity water faster, above it ethanol): what does not
    // evaporate stays behind in less liquid.
    static void concentrate(LiquidState& there, Volume evaporated) {
        if (!there.composition || evaporated >= there.volume) return;
        const double factor = litres(there.volume) / litres(there.volume - evaporated);
        there.composition->real_extract_g_per_l =
            std::max(there.composition->real_extract_g_per_l,
                     std::min(there.composition->real_extract_g_per_l * factor, k_saturated_extract_g_per_l));
        for (auto* estimate : {&there.ta, &there.ibu, &there.colour_ebc}) {
            if (!*estimate) continue;
            (*estimate)->mean *= factor;
            (*estimate)->sd *= factor;
        }
        there.malic_g_per_l *= factor;
        there.citric_g_per_l *= factor;
        there.sorbitol_g_per_l *= factor;
        there.fruit_sugar_g_per_l *= factor;
    }

    void end_starving(LiquidState& there) const {
        if (const auto starved = starving(there, m_now)) there.starved.push_back(*starved);
        there.acid_since.reset();
    }

    void restart_watch(LiquidState& there) const {
        end_starving(there);
        there.here_since = m_now;
        there.watch.clear();
        there.temperatures_c.clear();
        there.dissolved_co2_g_per_l.reset();
    }

    void pour(LiquidState& there, const LiquidState& coming, Volume volume) const {
        const Volume present = there.volume;
        if (present == Volume{}) {
            there = coming;
            there.volume = volume;
            there.here_since = m_now;
            return;  // the same liquid in another vessel: what was read of it still holds
        }
        end_starving(there);
        const double weight = litres(volume) / litres(present + volume);
        const std::string before =
            there.gravity_read_at ? "read " + iso_text(*there.gravity_read_at).substr(0, 10) + ", " : "";
        if (there.composition && coming.composition) {
            there.composition = chem::Composition{
                mixed(there.composition->ethanol_g_per_l, coming.composition->ethanol_g_per_l, weight),
                mixed(there.composition->real_extract_g_per_l, coming.composition->real_extract_g_per_l, weight)};
        } else {
            there.composition.reset();
        }
        there.gravity_sd = mixed(there.gravity_sd, coming.gravity_sd, weight);
        there.alcohol_sd = mixed(there.alcohol_sd, coming.alcohol_sd, weight);
        there.gravity_provenance = Provenance::mixed;
        there.alcohol_provenance = Provenance::mixed;
        there.gravity_why = before + "then mixed by volume with what was poured in";
        there.alcohol_why = "by volume from what was poured together";
        there.original_gravity = mixed(there.original_gravity, coming.original_gravity, weight);
        if (there.ph && coming.ph) {
            there.ph =
                LiquidState::PhRange{std::min(there.ph->low, coming.ph->low), std::max(there.ph->high, coming.ph->high),
                                     std::max(there.ph->sd, coming.ph->sd), Provenance::mixed, there.ph->read_at};
        } else {
            there.ph.reset();
        }
        there.ta = mix(there.ta, coming.ta, weight);
        there.ibu = mix(there.ibu, coming.ibu, weight);
        there.colour_ebc = mix(there.colour_ebc, coming.colour_ebc, weight);
        there.malic_g_per_l = mixed(there.malic_g_per_l, coming.malic_g_per_l, weight);
        there.citric_g_per_l = mixed(there.citric_g_per_l, coming.citric_g_per_l, weight);
        there.sorbitol_g_per_l = mixed(there.sorbitol_g_per_l, coming.sorbitol_g_per_l, weight);
        there.fruit_sugar_g_per_l = mixed(there.fruit_sugar_g_per_l, coming.fruit_sugar_g_per_l, weight);
        there.volume = present + volume;
        restart_watch(there);
    }

    LiquidState* subject(const ledger::EntryKey& key) {
        if (const int run = m_cellar.run_of(key); run >= 0) return &run_at(run);
        if (const int index = m_cellar.vessel_of(key); index >= 0) return &vessel(index);
        return nullptr;
    }

    void look(const ledger::Reading& reading, const ledger::Entry& entry) {
        LiquidState* there = subject(reading.subject);
        if (there == nullptr || !there->composition) return;
        const auto calibration = [&](ledger::Quantity quantity) {
            return m_cellar.calibration_at(m_index, reading.instrument, quantity);
        };
        std::optional<double> celsius;
        for (const ledger::Measured& one : reading.values)
            if (one.quantity == ledger::Quantity::temperature) {
                const double written = calibrated(one, calibration(one.quantity));
                celsius = one.unit == "F" ? (written - 32.0) / 1.8 : written;
            }
        if (celsius) there->temperatures_c.push_back(*celsius);
        for (const ledger::Measured& one : reading.values) {
            const ledger::Calibrate* const off_by = calibration(one.quantity);
            const double value = calibrated(one, off_by);
            switch (one.quantity) {
                case ledger::Quantity::gravity:
                    read_gravity(*there, one, gravity_of_reading(one, reading.read_at_c, off_by), entry, celsius,
                                 off_by != nullptr);
                    break;
                case ledger::Quantity::ph:
                    there->ph = LiquidState::PhRange{value, value, k_ph_reading_sd, Provenance::read, entry.at()};
                    if (value >= k_starving_below_ph)
                        there->acid_since.reset();
                    else if (!there->acid_since)
                        there->acid_since = entry.at();
                    break;
                case ledger::Quantity::ta:
                    there->ta = Estimate{value, k_ta_reading_sd, Provenance::read, entry.at(), "titrated"};
                    break;
                case ledger::Quantity::dissolved_co2:
                    there->dissolved_co2_g_per_l = one.unit == "vol" ? value * chem::k_co2_g_per_volume : value;
                    break;
                case ledger::Quantity::temperature:
                case ledger::Quantity::weight:
                    break;
            }
        }
    }

    // What was read wins over what went in by the book: more extract where it is above, more ethanol where below.
    static chem::Composition as_read(const chem::Composition& nearest, double gravity) {
        if (gravity > chem::gravity_of(nearest))
            return chem::composition_from_gravity_and_abv(gravity, chem::abv_of(nearest));
        const double ethanol = chem::bracketed_root(
            [gravity](double grams) {
                return chem::gravity_of(chem::Composition{grams, 0.0}) - gravity;
            },
            nearest.ethanol_g_per_l, std::max(nearest.ethanol_g_per_l, k_most_ethanol_g_per_l));
        return chem::Composition{ethanol, 0.0};
    }

    static void read_gravity(LiquidState& there, const ledger::Measured& measured, double gravity,
                             const ledger::Entry& entry, std::optional<double> celsius, bool calibrated) {
        const double before = chem::abv_of(*there.composition);
        there.composition = chem::fermented_to(*there.composition, gravity);
        const bool out_of_reach = std::fabs(chem::gravity_of(*there.composition) - gravity) > k_gravity_reached;
        if (out_of_reach) there.composition = as_read(*there.composition, gravity);
        there.original_gravity = std::max(there.original_gravity, gravity);
        const double after = chem::abv_of(*there.composition);
        if (out_of_reach) {
            there.alcohol_provenance = Provenance::assumed;
            there.alcohol_sd = std::max(there.alcohol_sd, k_assumed_alcohol_sd);
            there.alcohol_why =
                "the gravity read " + iso_text(entry.at()).substr(0, 10) + " cannot come of what the book says went in";
        } else if (std::fabs(after - before) > 0.05) {
            there.alcohol_provenance = Provenance::computed;
            there.alcohol_sd =
                std::hypot(there.alcohol_sd, k_alcohol_from_gravity_sd * std::min(1.0, std::fabs(after - before)));
            there.alcohol_why = "from the fall of gravity, read " + iso_text(entry.at()).substr(0, 10);
        }
        const double sd = sd_of_reading(measured);
        there.gravity_sd = sd;
        there.gravity_provenance = Provenance::read;
        there.gravity_read_at = entry.at();
        there.gravity_why = "read " + measured.value.text() + " " + measured.unit + (calibrated ? ", calibrated" : "");
        for (const GravityReading& earlier : there.watch) {
            const double days = years_between(earlier.at, entry.at()) * 365.25;
            if (days >= k_equal_days && std::fabs(earlier.gravity - gravity) <= k_equal_gravity + 1e-9)
                there.fruit_sugar_g_per_l = 0.0;  // shown fermented, as far as a hydrometer can
        }
        there.watch.push_back(GravityReading{entry.at(), gravity, sd, celsius});
    }

    // Coldest and warmest of what it logged of the liquid that is there.
    void look(const ledger::LoggerFile& logged, const ledger::Entry&) {
        LiquidState* there = subject(logged.subject);
        if (there == nullptr || !there->composition) return;
        const ledger::Calibrate* const off_by =
            m_cellar.calibration_at(m_index, logged.instrument, ledger::Quantity::temperature);
        std::optional<double> coldest;
        std::optional<double> warmest;
        for (const ledger::LoggedPoint& point : logged.points) {
            const Instant when{logged.begun.ms + std::int64_t{1000} * point.after_s};
            if (there->here_since && when < *there->here_since) continue;
            const double celsius = calibrated({ledger::Quantity::temperature, point.celsius, "C"}, off_by);
            coldest = std::min(coldest.value_or(celsius), celsius);
            warmest = std::max(warmest.value_or(celsius), celsius);
        }
        if (!coldest) return;
        there->temperatures_c.push_back(*coldest);
        there->temperatures_c.push_back(*warmest);
    }

    void look(const ledger::Pitch& pitch, const ledger::Entry&) {
        const int index = m_cellar.vessel_of(pitch.vessel);
        if (index < 0) return;
        restart_watch(vessel(index));
        m_states.unclean[at(index)] = vessel(index).volume == Volume{};
    }
    void look(const ledger::Care& care, const ledger::Entry&) {
        const int index = m_cellar.vessel_of(care.vessel);
        if (index >= 0 && care.kills() && !care.in_pores) m_states.unclean[at(index)] = false;
    }
    void look(const ledger::Addition& addition, const ledger::Entry&) {
        LiquidState* there = subject(addition.vessel);
        if (there == nullptr) return;
        const bool feeds = addition.kind == ledger::AdditionKind::fruit ||
                           addition.kind == ledger::AdditionKind::sugar ||
                           addition.kind == ledger::AdditionKind::hops || !addition.cultures.empty();
        if (feeds) {
            restart_watch(*there);
            const int index = m_cellar.vessel_of(addition.vessel);
            if (there->volume == Volume{}) m_states.unclean[at(index)] = true;  // it waits for what is filled on it
        }
        // Nothing is known of the pH of beer on fruit or acid until it is read.
        if (addition.kind == ledger::AdditionKind::fruit || addition.kind == ledger::AdditionKind::acid) {
            there->ph.reset();
            end_starving(*there);
        }
    }
    template <class Body>
    void look(const Body&, const ledger::Entry&) {}

    const ledger::Cellar& m_cellar;
    StateBook& m_states;
    int m_index = 0;  // of the entry at hand
    Instant m_now;
};

}  // namespace

const char* word(Provenance value) {
    switch (value) {
        case Provenance::read:
            return "read";
        case Provenance::mixed:
            return "mixed";
        case Provenance::computed:
            return "computed";
        case Provenance::stated:
            return "stated";
        case Provenance::assumed:
            break;
    }
    return "assumed";
}

std::optional<Estimate> LiquidState::gravity() const {
    if (!composition) return std::nullopt;
    return Estimate{chem::gravity_of(*composition), gravity_sd, gravity_provenance, gravity_read_at, gravity_why};
}

std::optional<Estimate> LiquidState::alcohol() const {
    if (!composition) return std::nullopt;
    return Estimate{chem::abv_of(*composition), alcohol_sd, alcohol_provenance, std::nullopt, alcohol_why};
}

std::optional<Estimate> LiquidState::ph_estimate() const {
    if (!ph) return std::nullopt;
    Estimate result;
    result.mean = (ph->low + ph->high) / 2.0;
    result.sd = (ph->high - ph->low) / 2.0 + ph->sd;
    result.provenance = ph->provenance;
    result.read_at = ph->read_at;
    if (ph->provenance == Provenance::mixed)
        result.why = "between those of its parts: pH does not average, read it";
    else if (ph->provenance == Provenance::read)
        result.why = "read";
    else
        result.why = "given when it entered";
    return result;
}

StateBook states_of(const ledger::Cellar& cellar) {
    StateBook states;
    follow(states, cellar);
    return states;
}

void follow(StateBook& states, const ledger::Cellar& cellar) {
    Filter{states, cellar}.run();
}

}  // namespace undercroft::engine
