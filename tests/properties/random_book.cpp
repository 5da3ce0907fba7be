#include "tests/properties/random_book.hpp"

#include <algorithm>
#include <utility>

#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

Volume gap_in(const Cellar& cellar, const VesselState& vessel) {
    Volume gap = vessel.full() - vessel.liquid.volume;
    for (const int index : vessel.additions_inside) gap -= cellar.additions[static_cast<std::size_t>(index)].as.solids;
    return std::max(Volume{}, gap);
}

}  // namespace

void RandomBook::grow(std::size_t entries) {
    // Impossible tries are dropped; a book of nothing but those would never end.
    for (std::size_t tries = 0; m_entries.size() < entries && tries < 20 * entries; ++tries) {
        const auto cellar = replay(m_entries);
        if (!cellar) return;  // the properties say so
        m_days += m_random.between(0, 40);
        Entry entry;
        entry.key = {sitting_key(static_cast<unsigned>(m_entries.size() + 1)), 0};
        entry.place = place_at(on_day(static_cast<int>(m_days)), entry.key);
        entry.recorded = entry.place.at;
        if (!m_entries.empty() && m_random.one_in(8)) {
            const Entry target = m_entries[any_live()];
            Body body = m_random.one_in(3) ? Body{Void{}} : other_than(target.body);
            entry = correction_of(target, std::move(body), static_cast<unsigned>(m_entries.size() + 1));
        } else {
            entry.body = some_body(*cellar);
            // The phone was upstairs.
            if (m_random.one_in(10))
                entry.place = place_at(on_day(static_cast<int>(m_random.between(0, m_days))), entry.key);
            else if (!m_entries.empty() && m_random.one_in(12))
                entry.place = place_after(m_entries[any_live()].place, entry.key);
        }
        keep_if_possible(std::move(entry));
    }
}

bool RandomBook::keep_if_possible(Entry entry) {
    entry.sequence = static_cast<std::int64_t>(m_entries.size() + 1);
    m_entries.push_back(std::move(entry));
    if (replay(m_entries)) return true;
    m_entries.pop_back();
    return false;
}

std::size_t RandomBook::any_live() {
    const auto book = in_order(m_entries, {});
    std::vector<std::size_t> worth;
    for (const Entry* entry : book->live)
        if (!std::holds_alternative<Note>(entry->body))
            worth.push_back(static_cast<std::size_t>(entry - m_entries.data()));
    if (worth.empty()) return 0;
    return worth[static_cast<std::size_t>(m_random.between(0, static_cast<std::int64_t>(worth.size()) - 1))];
}

Entry RandomBook::correction_of(const Entry& target, Body body, unsigned number) const {
    Entry entry;
    entry.key = {sitting_key(number), 0};
    entry.place = target.place;
    entry.supersedes = target.key;
    entry.reason = "misread";
    entry.body = std::move(body);
    entry.recorded = on_day(static_cast<int>(m_days));
    entry.sequence = static_cast<std::int64_t>(m_entries.size() + 1);
    return entry;
}

// The same act with another amount.
Body RandomBook::other_than(Body body) {
    const auto less = [this](Volume& volume) {
        volume = Volume::from_ul(volume.ul() * m_random.between(50, 110) / 100);
    };
    if (auto* lot = std::get_if<LotEnters>(&body)) less(lot->volume);
    if (auto* move = std::get_if<Move>(&body)) less(move->to.front().volume);
    if (auto* loss = std::get_if<Loss>(&body)) less(loss->volume);
    if (auto* addition = std::get_if<Addition>(&body)) less(addition->brings);
    if (auto* reading = std::get_if<Reading>(&body)) less(reading->sample);
    if (auto* package = std::get_if<Package>(&body)) package->count += 1;
    if (auto* vessel = std::get_if<VesselJoins>(&body)) less(vessel->capacity);
    if (auto* settle = std::get_if<Settle>(&body)) {
        less(settle->missing);
        less(settle->surplus);
    }
    if (auto* calibrate = std::get_if<Calibrate>(&body)) calibrate->offset = Decimal{m_random.between(-9, 9), 2};
    return body;
}

Volume RandomBook::part_of(Volume most) {
    if (most <= Volume{}) return Volume::from_ul(1);
    if (m_random.one_in(5)) return most;
    return Volume::from_ul(m_random.between(1, most.ul()));
}

EntryKey RandomBook::some_vessel_key(const Cellar& cellar, bool with_liquid) {
    std::vector<EntryKey> fit;
    for (const VesselState& vessel : cellar.vessels)
        if (!vessel.retired && (!with_liquid || vessel.liquid.volume > Volume{})) fit.push_back(vessel.key);
    if (fit.empty()) return {sitting_key(999'999), 0};
    return fit[static_cast<std::size_t>(m_random.between(0, static_cast<std::int64_t>(fit.size()) - 1))];
}

std::vector<Culture> RandomBook::some_cultures() {
    std::vector<Culture> cultures;
    for (std::int64_t i = m_random.between(-2, 2); i > 0; --i) {
        Culture culture;
        culture.name = "culture " + std::to_string(++m_names);
        culture.kind = m_random.one_in(2) ? "mixed_sour" : "wine_killer_k2";
        if (m_random.one_in(2)) culture.diastatic = Diastatic::yes;
        cultures.push_back(std::move(culture));
    }
    return cultures;
}

std::vector<Allergen> RandomBook::some_allergens() {
    std::vector<Allergen> allergens;
    for (const char* group : {"gluten", "milk", "sulphite"})
        if (m_random.one_in(3)) {
            Allergen allergen{group, std::nullopt};
            if (m_random.one_in(2)) allergen.mg_per_litre = Decimal{m_random.between(1, 900), 1};
            allergens.push_back(std::move(allergen));
        }
    return allergens;
}

GearNames RandomBook::some_gear() {
    GearNames gear;
    for (const char* name : {"long hose", "pump", "thief"})
        if (m_random.one_in(6)) gear.emplace_back(name);
    return gear;
}

Body RandomBook::some_care(const Cellar& cellar) {
    Care body;
    for (const VesselState& vessel : cellar.vessels)
        if (!vessel.retired && vessel.liquid.volume == Volume{} && m_random.one_in(2)) body.vessel = vessel.key;
    body.gear = some_gear();
    if (body.vessel.empty() && body.gear.empty()) body.gear.emplace_back("long hose");
    if (m_random.one_in(4)) return body;  // as first written
    constexpr CareMethod k_methods[] = {CareMethod::emptied, CareMethod::rinsed, CareMethod::cleaned,
                                        CareMethod::sanitised};
    body.method = k_methods[m_random.between(0, 3)];
    body.kill = m_random.one_in(2);
    body.in_pores = body.kill && m_random.one_in(4);
    return body;
}

Body RandomBook::some_treatment(const Cellar& cellar) {
    Treat body;
    body.subject = some_vessel_key(cellar, true);
    if (!cellar.runs.empty() && m_random.one_in(4)) body.subject = cellar.runs.back().key;
    for (const char* kind : {"mixed_sour", "wine_killer_k2"}) {
        constexpr int k_lists = 4;
        const std::int64_t list = m_random.between(0, k_lists - 1);
        if (list == 0) body.gone.emplace_back(kind);
        if (list == 1) body.gone_unless_diastatic.emplace_back(kind);
        if (list == 2) body.perhaps.emplace_back(kind);
    }
    if (m_random.one_in(2)) body.allergens = some_allergens();
    return body;
}

Body RandomBook::some_confirmation(const Cellar& cellar) {
    for (const VesselState& vessel : cellar.vessels)
        if (!vessel.retired && !vessel.liquid.cultures.empty() && m_random.one_in(2)) {
            const CultureHere& here = vessel.liquid.cultures.back();
            return Confirm{vessel.key, cellar.cultures[static_cast<std::size_t>(here.culture)].as.name, "plate"};
        }
    return Note{};
}

Body RandomBook::some_vessel() {
    VesselJoins body;
    body.name = "Vessel " + std::to_string(++m_names);
    body.capacity = Volume::from_ul(m_random.between(5'000'000, 250'000'000));
    body.ullage = Volume::from_ul(body.capacity.ul() / m_random.between(20, 200));
    return body;
}

Body RandomBook::some_lot(const Cellar& cellar) {
    LotEnters body;
    body.vessel = some_vessel_key(cellar, false);
    body.name = "Lot " + std::to_string(++m_names);
    constexpr LotKind k_kinds[] = {LotKind::beer,  LotKind::beer,   LotKind::beer,  LotKind::fruit,
                                   LotKind::water, LotKind::spirit, LotKind::syrup, LotKind::unknown};
    body.kind = k_kinds[m_random.between(0, 7)];
    const int index = cellar.vessel_of(body.vessel);
    if (index < 0) return body;
    const VesselState& vessel = cellar.vessels[static_cast<std::size_t>(index)];
    const Volume gap = gap_in(cellar, vessel);
    body.volume = part_of(gap);
    if (m_random.one_in(4)) {  // to full
        if (m_random.one_in(2) && vessel.liquid.volume > Volume{}) {
            body.settlement.evaporation = part_of(vessel.liquid.volume);
            body.volume = gap + body.settlement.evaporation;
        } else {
            body.settlement.found = gap - body.volume;
        }
    }
    if (m_random.one_in(2)) {
        const auto age = static_cast<int>(m_random.between(0, 2000));
        const Day from = add_days(Day{std::chrono::year{2019}, std::chrono::month{6}, std::chrono::day{1}}, -age);
        body.brewed_from = from;
        body.brewed_to = add_days(from, static_cast<int>(m_random.between(0, 300)));
    }
    if (m_random.one_in(2)) {
        body.original_gravity = Decimal{m_random.between(1030, 1110), 3};
        if (m_random.one_in(2)) body.gravity = Decimal{m_random.between(998, 1030), 3};
    }
    if (m_random.one_in(3)) body.ph = Decimal{m_random.between(310, 480), 2};
    if (m_random.one_in(3)) body.ta_g_per_litre = Decimal{m_random.between(10, 90), 1};
    body.allergens = some_allergens();
    body.cultures = some_cultures();
    body.gear = some_gear();
    return body;
}

Body RandomBook::some_move(const Cellar& cellar) {
    Move body;
    body.from = some_vessel_key(cellar, true);
    const int from = cellar.vessel_of(body.from);
    Volume left = from < 0 ? Volume::from_ul(1) : cellar.vessels[static_cast<std::size_t>(from)].liquid.volume;
    if (m_random.one_in(3)) {
        body.loss = Volume::from_ul(left.ul() / m_random.between(10, 300));
        left -= body.loss;
    }
    for (std::int64_t i = m_random.between(1, 3); i > 0; --i) {
        Destination to;
        to.vessel = some_vessel_key(cellar, false);
        const int index = cellar.vessel_of(to.vessel);
        if (index < 0) break;
        const VesselState& vessel = cellar.vessels[static_cast<std::size_t>(index)];
        const Volume gap = gap_in(cellar, vessel);
        to.volume = part_of(std::min(left, gap));
        left -= to.volume;
        body.to.push_back(to);
        if (body.to.size() == 1 && m_random.one_in(4)) {
            if (m_random.one_in(2))
                body.settlement.found = gap - to.volume;
            else
                body.settlement.evaporation = part_of(vessel.liquid.volume);
            break;
        }
    }
    body.gear = some_gear();
    if (m_random.one_in(5)) body.reason = Reason::split;
    return body;
}

Body RandomBook::some_addition(const Cellar& cellar) {
    Addition body;
    body.vessel = some_vessel_key(cellar, false);
    body.item = "plum_fresh";
    body.name = "plum " + std::to_string(++m_names);
    body.kind = m_random.one_in(3) ? AdditionKind::oak : AdditionKind::fruit;
    body.mass = Mass::from_mg(m_random.between(1'000, 4'000'000));
    body.contained = m_random.one_in(3);
    if (body.kind == AdditionKind::fruit) {
        body.brings = Volume::from_ul(m_random.between(1, body.mass.mg()));
        body.solids = Volume::from_ul(body.mass.mg() / 8);
        body.hold_up = Volume::from_ul(body.mass.mg() / 10);
        body.contents.sucrose = Mass::from_mg(body.brings.ul() / 10);
        body.contents.malic_acid = Mass::from_mg(body.brings.ul() / 90);
    }
    body.allergens = some_allergens();
    body.cultures = some_cultures();
    return body;
}

Body RandomBook::some_package(const Cellar& cellar) {
    Package body;
    body.from = some_vessel_key(cellar, true);
    body.run = "RUN-" + std::to_string(++m_names);
    body.container = "bottle_330_heavy";
    body.container_name = "Bottle";
    body.fill = m_random.one_in(2) ? Volume::from_ul(330'000) : Volume::from_ul(m_random.between(200'000, 750'000));
    const int from = cellar.vessel_of(body.from);
    const std::int64_t held = from < 0 ? 0 : cellar.vessels[static_cast<std::size_t>(from)].liquid.volume.ul();
    body.count = static_cast<int>(m_random.between(1, std::max<std::int64_t>(1, held / body.fill.ul())));
    if (m_random.one_in(2)) {
        body.priming_sugar = Mass::from_mg(body.fill.ul() * body.count / 1000 * 5);
        body.priming_volume = Volume::from_ul(body.priming_sugar.mg() * 62 / 100);
    }
    if (m_random.one_in(3)) body.loss = Volume::from_ul(m_random.between(1, 200'000));
    body.gear = some_gear();
    return body;
}

Body RandomBook::some_take(const Cellar& cellar) {
    Take body;
    if (cellar.runs.empty()) return Note{};
    const RunState& run =
        cellar.runs[static_cast<std::size_t>(m_random.between(0, static_cast<std::int64_t>(cellar.runs.size()) - 1))];
    body.run = run.key;
    body.count = static_cast<int>(m_random.between(1, std::max(1, run.left)));
    constexpr TakeCause k_causes[] = {TakeCause::opened, TakeCause::given,    TakeCause::sold,
                                      TakeCause::broken, TakeCause::returned, TakeCause::returned};
    body.cause = k_causes[m_random.between(0, 5)];
    if (body.cause == TakeCause::returned) {
        body.vessel = some_vessel_key(cellar, false);
        body.count = std::min(body.count, 4);
    }
    return body;
}

// A stock-take of a vessel or of a run, less or more than the book has, or right.
Body RandomBook::some_settle(const Cellar& cellar) {
    Settle body;
    if (!cellar.runs.empty() && m_random.one_in(3)) {
        const RunState& run =
            cellar
                .runs[static_cast<std::size_t>(m_random.between(0, static_cast<std::int64_t>(cellar.runs.size()) - 1))];
        body.subject = run.key;
        body.found_by = FoundBy::count;
        body.count = static_cast<int>(m_random.between(0, run.as.count));
        body.missing_count = std::max(0, run.left - body.count);
        body.surplus_count = std::max(0, body.count - run.left);
        return body;
    }
    body.subject = some_vessel_key(cellar, m_random.one_in(4) ? false : true);
    const int index = cellar.vessel_of(body.subject);
    if (index < 0) return Note{};
    const VesselState& vessel = cellar.vessels[static_cast<std::size_t>(index)];
    const Volume held = vessel.liquid.volume;
    if (m_random.one_in(2))
        body.missing = m_random.one_in(6) ? held : Volume::from_ul(held.ul() / m_random.between(5, 60));
    else
        body.surplus = std::min(gap_in(cellar, vessel), Volume::from_ul(1 + vessel.came_in.ul() / 25));
    body.found = held - body.missing + body.surplus;
    body.found_sd = Volume::from_ul(body.found.ul() / 100);
    body.cause = m_random.one_in(2) ? LossCause::evaporation : LossCause::unknown;
    return body;
}

// Instruments that are off, and a logger that hung in a vessel for a week.
Body RandomBook::some_look(const Cellar& cellar) {
    const char* const instrument = m_random.one_in(2) ? "hydrometer" : "meter";
    if (m_random.one_in(2))
        return Calibrate{instrument, m_random.one_in(2) ? Quantity::ph : Quantity::temperature,
                         Decimal{m_random.between(-20, 20), 2}, "pH"};
    LoggerFile body;
    body.subject = some_vessel_key(cellar, true);
    body.instrument = instrument;
    body.rows = 3;
    body.begun = on_day(static_cast<int>(m_days) - 7);
    body.points = {{0, Decimal{m_random.between(80, 260), 1}},
                   {300'000, Decimal{m_random.between(80, 260), 1}},
                   {604'800, Decimal{m_random.between(80, 260), 1}}};
    return body;
}

Body RandomBook::some_body(const Cellar& cellar) {
    const auto standing =
        std::count_if(cellar.vessels.begin(), cellar.vessels.end(), [](const auto& vessel) { return !vessel.retired; });
    if (standing < 3) return some_vessel();
    switch (m_random.between(0, 32)) {
        case 0:
            return some_vessel();
        case 1:
            return VesselLeaves{some_vessel_key(cellar, false)};
        case 2:
        case 3:
        case 4:
        case 5:
            return some_lot(cellar);
        case 6:
        case 7:
        case 8:
        case 9:
        case 10:
            return some_move(cellar);
        case 11: {
            Loss body;
            body.vessel = some_vessel_key(cellar, true);
            const int index = cellar.vessel_of(body.vessel);
            body.volume = part_of(index < 0 ? Volume{} : cellar.vessels[static_cast<std::size_t>(index)].liquid.volume);
            if (m_random.one_in(3)) body.volume = Volume::from_ul(1 + body.volume.ul() / 50);
            body.cause = m_random.one_in(2) ? LossCause::evaporation : LossCause::dump;
            return body;
        }
        case 12:
        case 13:
            return some_addition(cellar);
        case 14: {
            for (const AdditionState& addition : cellar.additions)
                if (!addition.until && m_random.one_in(2)) return Lift{addition.key};
            return some_addition(cellar);
        }
        case 15: {
            Pitch body;
            body.vessel = some_vessel_key(cellar, false);
            body.culture.name = "culture " + std::to_string(++m_names);
            body.culture.kind = "mixed_sour";
            body.suspected = m_random.one_in(3);
            return body;
        }
        case 16:
        case 17: {
            Reading body;
            body.subject = some_vessel_key(cellar, true);
            body.instrument = m_random.one_in(2) ? "meter" : "";
            body.values.push_back({Quantity::gravity, Decimal{m_random.between(9980, 10400), 4}, "SG"});
            if (m_random.one_in(2)) body.values.push_back({Quantity::ph, Decimal{m_random.between(310, 460), 2}, "pH"});
            if (m_random.one_in(2)) body.sample = Volume::from_ul(m_random.between(1, 200'000));
            body.gear = some_gear();
            return body;
        }
        case 18:
        case 19:
            return some_package(cellar);
        case 20:
        case 21:
            return some_take(cellar);
        case 22:
        case 24:
            return some_care(cellar);
        case 25:
        case 26:
            return some_treatment(cellar);
        case 27:
            return some_confirmation(cellar);
        case 23:
            return Interval{some_vessel_key(cellar, false), std::nullopt, Recurring::reading,
                            static_cast<int>(m_random.between(0, 60))};
        case 28:
        case 29:
            return some_settle(cellar);
        case 30:
        case 31:
            return some_look(cellar);
        default:
            return Note{some_vessel_key(cellar, false), "smells fine"};
    }
}

}  // namespace undercroft::testing
