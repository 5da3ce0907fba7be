#include "tests/properties/random_keeper.hpp"

#include <algorithm>
#include <memory>
#include <utility>

#include "units/amount.hpp"

namespace undercroft::testing {

using namespace app;

const VesselSummary& RandomKeeper::some_vessel(const CellarView& cellar) {
    return cellar
        .vessels[static_cast<std::size_t>(m_random.between(0, static_cast<std::int64_t>(cellar.vessels.size()) - 1))];
}

std::string RandomKeeper::some_volume(Volume most) {
    switch (m_random.between(0, 7)) {
        case 0:
            return "a third";
        case 1:
            return "all";
        case 2:
            return "25 %";
        case 3:
            return "half";
        default:
            return exact_text_of(Volume::from_ul(m_random.between(1, std::max<std::int64_t>(1, most.ul()))));
    }
}

std::string RandomKeeper::some_entry(const CellarView& cellar) {
    if (m_random.one_in(6)) return "last";
    return "#" + std::to_string(m_random.between(1, std::max<std::int64_t>(1, cellar.book.sequence)));
}

std::string RandomKeeper::some_person() {
    constexpr const char* k_people[] = {"", "Ada", "Bo", "Cy"};
    return k_people[m_random.between(0, 3)];
}

Act RandomKeeper::some_lot(const CellarView& cellar) {
    EnterLot act;
    const VesselSummary& vessel = some_vessel(cellar);
    act.vessel = vessel.name;
    act.name = "Lot " + std::to_string(++m_names);
    act.to_full = m_random.one_in(3);
    if (!act.to_full || m_random.one_in(2))
        act.volume = exact_text_of(
            Volume::from_ul(m_random.between(1, std::max<std::int64_t>(1, (vessel.full - vessel.volume).ul()))));
    if (m_random.one_in(2)) act.original_gravity = "1.0" + std::to_string(m_random.between(30, 90));
    if (!act.original_gravity.empty() && m_random.one_in(2))
        act.gravity = "1.00" + std::to_string(m_random.between(2, 9));
    if (m_random.one_in(3)) act.ph = "3." + std::to_string(m_random.between(20, 90));
    if (m_random.one_in(3)) act.brewed = "2021..2023";
    if (m_random.one_in(3)) act.cultures = {m_random.one_in(2) ? "mixed_sour" : "wine_killer_k2"};
    if (m_random.one_in(4)) act.allergens = {"sulphite 12 mg/L", "milk"};
    return act;
}

Act RandomKeeper::some_move(const CellarView& cellar) {
    MoveLiquid act;
    const VesselSummary& from = some_vessel(cellar);
    act.from = from.name;
    act.reason = ledger::Reason::pull;
    for (std::int64_t i = m_random.between(1, 2); i > 0; --i)
        act.to.push_back({some_vessel(cellar).name, some_volume(from.volume)});
    if (act.to.size() == 1 && m_random.one_in(3)) {
        act.to_full = true;
        if (m_random.one_in(2)) act.to.front().volume.clear();
    }
    if (m_random.one_in(4)) act.loss = "0.25 L";
    if (m_random.one_in(3)) act.gear = {"long hose"};
    return act;
}

Act RandomKeeper::some_addition(const CellarView& cellar) {
    AddAddition act;
    act.vessel = some_vessel(cellar).name;
    if (m_random.one_in(3)) {
        act.kind = m_random.one_in(2) ? "sugar" : "oak";
        act.item = "item " + std::to_string(++m_names);
        act.amount = std::to_string(m_random.between(1, 400)) + " g";
    } else {
        act.item = m_tables
                       .fruits[static_cast<std::size_t>(
                           m_random.between(0, static_cast<std::int64_t>(m_tables.fruits.size()) - 1))]
                       .id;
        act.amount = std::to_string(m_random.between(1, 30)) + "00 g";
    }
    act.contained = m_random.one_in(2);
    act.live = m_random.one_in(4);
    return act;
}

Act RandomKeeper::some_package(const CellarView& cellar) {
    PackageRun act;
    act.from = some_vessel(cellar).name;
    act.container = m_random.one_in(2) ? "bottle_330_heavy" : "bottle_sparkling_750";
    act.count = m_random.one_in(3) ? "all" : std::to_string(m_random.between(1, 24));
    if (m_random.one_in(2)) act.priming = "5 g/L";
    if (m_random.one_in(3)) act.loss = "0.2 L";
    act.acknowledge = "a trial run, kept in a box";
    return act;
}

Act RandomKeeper::some_act(const CellarView& cellar) {
    const auto some_run = [&]() -> std::string {
        if (cellar.runs.empty()) return some_vessel(cellar).name;
        return cellar
            .runs[static_cast<std::size_t>(m_random.between(0, static_cast<std::int64_t>(cellar.runs.size()) - 1))]
            .run;
    };
    if (cellar.vessels.size() < 3 || m_random.one_in(20)) {
        if (cellar.vessels.size() > 3 && m_random.one_in(3)) {
            SplitVessel act;
            act.vessel = some_vessel(cellar).name;
            act.into = "Half " + std::to_string(++m_names);
            act.volume = "half";
            act.fresh.capacity = "120 L";
            return act;
        }
        if (cellar.vessels.size() > 5 && m_random.one_in(4)) {
            EndVessel act;
            act.vessel = some_vessel(cellar).name;
            act.dump = true;
            return act;
        }
        RegisterVessel act;
        act.name = "Vessel " + std::to_string(++m_names);
        act.capacity = std::to_string(m_random.between(10, 200)) + " L";
        if (m_random.one_in(2)) act.ullage = "0.5 L";
        if (m_random.one_in(2)) act.role = "solera";
        return act;
    }
    switch (m_random.between(0, 19)) {
        case 0:
        case 1:
        case 2:
        case 3:
            return some_lot(cellar);
        case 4:
        case 5:
        case 6:
        case 7:
            return some_move(cellar);
        case 8:
            return LoseLiquid{some_vessel(cellar).name, some_volume(Volume::from_ul(500'000)),
                              m_random.one_in(2) ? "evaporation" : "dump"};
        case 9:
        case 10:
            return some_addition(cellar);
        case 11:
            return LiftAddition{some_vessel(cellar).name, ""};
        case 12: {
            PitchCulture act;
            act.vessel = some_vessel(cellar).name;
            act.kind = m_random.one_in(2) ? "mixed_sour" : "ale_farmhouse_diastatic";
            act.suspected = m_random.one_in(3);
            return act;
        }
        case 13:
        case 14: {
            TakeReading act;
            act.subject = some_vessel(cellar).name;
            act.gravity = "1.00" + std::to_string(m_random.between(1, 9));
            if (m_random.one_in(2)) act.ph = "3." + std::to_string(m_random.between(20, 70));
            if (m_random.one_in(2)) act.sample = "80 mL";
            return act;
        }
        case 15: {
            TasteIt act;
            act.subject = some_vessel(cellar).name;
            act.taster = some_person();
            act.scores = {"sour=" + std::to_string(m_random.between(0, 10))};
            return act;
        }
        case 16:
            return some_package(cellar);
        case 17: {
            TakeBottles act;
            act.run = some_run();
            act.count = std::to_string(m_random.between(1, 4));
            act.cause = m_random.one_in(3) ? "returned" : "given";
            if (act.cause == "returned") act.vessel = some_vessel(cellar).name;
            act.person = some_person();
            return act;
        }
        case 18: {
            if (m_random.one_in(2)) {
                TreatLiquid act;
                act.subject = some_vessel(cellar).name;
                act.method = m_random.one_in(2) ? "heat" : "filter";
                act.temperature = "62 C";
                act.minutes = std::to_string(m_random.between(1, 60));
                act.pore = m_random.one_in(2) ? "0.45" : "1";
                return act;
            }
            CleanVessel act;
            act.vessel = some_vessel(cellar).name;
            act.kill = m_random.one_in(2);
            act.gear = {"long hose"};
            return act;
        }
        default:
            return WriteNote{some_vessel(cellar).name, "a note"};
    }
}

SittingRequest RandomKeeper::some_sitting(const CellarView& cellar) {
    SittingRequest request;
    request.by = some_person();
    if (cellar.book.sequence > 6 && m_random.one_in(8)) {
        if (m_random.one_in(2)) {
            request.acts.push_back(VoidEntry{some_entry(cellar), "booked twice"});
        } else {
            Correct act;
            act.entry = some_entry(cellar);
            act.reason = "misread";
            act.instead = std::make_shared<const Act>(some_act(cellar));
            request.acts.push_back(std::move(act));
        }
        return request;
    }
    for (std::int64_t i = m_random.one_in(3) ? 3 : 1; i > 0; --i) request.acts.push_back(some_act(cellar));
    if (m_random.one_in(8))
        request.when = "2026-03-" + std::to_string(m_random.between(10, 13));
    else if (m_random.one_in(12))
        request.after = some_entry(cellar);
    return request;
}

}  // namespace undercroft::testing
