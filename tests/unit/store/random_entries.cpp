#include "tests/unit/store/random_entries.hpp"

#include <cstdio>
#include <cstdlib>

#include "store/digest.hpp"

namespace undercroft::store::testing {
namespace {

using namespace ledger;
using rc::gen::arbitrary;

// RapidCheck reads its seed here. The same entries every run, unless somebody sets another to look further.
[[maybe_unused]] const int k_seeded = ::setenv("RC_PARAMS", "seed=20261125", 0);

constexpr std::int64_t k_two_to_53 = std::int64_t{1} << 53;

std::int64_t any_whole() {
    // Zero, small and extreme numbers each get their share: only they are left out or refused.
    return *rc::gen::oneOf(rc::gen::just<std::int64_t>(0), rc::gen::inRange<std::int64_t>(1, 1000),
                           rc::gen::inRange<std::int64_t>(1 - k_two_to_53, k_two_to_53));
}

Volume any_volume() {
    return Volume::from_ul(any_whole());
}
Mass any_mass() {
    return Mass::from_mg(any_whole());
}
bool any_flag() {
    return *arbitrary<bool>();
}
int any_int() {
    return *rc::gen::oneOf(rc::gen::just(0), arbitrary<int>());
}

std::string any_text() {
    // Characters of one to four bytes, those JSON escapes, and both sides of the surrogate gap.
    const auto character =
        rc::gen::element<std::string>("a", "Z", "0", " ", "\"", "\\", "/", "\n", "\t", "\x01", "\x1f", "\x7f", "é", "ß",
                                      "°", "漢", "\ue000", "\uffff", "😀", "𝄞");
    std::string text;
    for (const std::string& c : *rc::gen::container<std::vector<std::string>>(character)) text += c;
    return text;
}

std::string any_sitting_key() {
    return sitting_key(*arbitrary<unsigned>());
}

EntryKey any_key() {
    return {any_sitting_key(), *rc::gen::inRange(0, 1000000)};
}
EntryKey maybe_key() {
    return any_flag() ? any_key() : EntryKey{};
}

Decimal any_decimal() {
    return {*rc::gen::oneOf(rc::gen::inRange<std::int64_t>(-1000, 1000),
                            rc::gen::inRange<std::int64_t>(-999'999'999'999'999, 1'000'000'000'000'000)),
            *rc::gen::inRange(0, 10)};
}

std::optional<Decimal> maybe_decimal() {
    return any_flag() ? std::optional(any_decimal()) : std::nullopt;
}

std::optional<Day> maybe_day() {
    if (any_flag()) return std::nullopt;
    // 1900 to 2200.
    return add_days(Day{std::chrono::year{1900}, std::chrono::month{1}, std::chrono::day{1}},
                    *rc::gen::inRange(0, 109'000));
}

std::string maybe_commitment() {
    return any_flag() ? "" : commitment_of("000102030405060708090a0b0c0d0e0f", any_text());
}

template <class E>
E any_of(std::initializer_list<E> values) {
    return *rc::gen::elementOf(std::vector<E>(values));
}

template <class Make>
auto any_list(Make make) {
    std::vector<decltype(make())> list;
    for (int n = *rc::gen::inRange(0, 4); n > 0; --n) list.push_back(make());
    return list;
}

template <class Make>
auto any_map(Make make) {
    std::map<std::string, decltype(make())> map;
    for (int n = *rc::gen::inRange(0, 4); n > 0; --n) map.emplace(any_text(), make());
    return map;
}

LotKind any_lot_kind() {
    return any_of({LotKind::beer, LotKind::fruit, LotKind::water, LotKind::syrup, LotKind::spirit, LotKind::unknown});
}

Reason any_reason() {
    return any_of({Reason::fill, Reason::pull, Reason::refill, Reason::top_up, Reason::rack, Reason::blend,
                   Reason::serve, Reason::split});
}

Culture any_culture() {
    return {
        any_text(), any_text(),
        any_of({KillerPhenotype::sensitive, KillerPhenotype::neutral, KillerPhenotype::killer, KillerPhenotype::unknown,
                KillerPhenotype::not_applicable}),
        any_of({ToxinType::none, ToxinType::k1, ToxinType::k2, ToxinType::k28, ToxinType::klus, ToxinType::unknown}),
        any_of({Diastatic::no, Diastatic::yes, Diastatic::unknown})};
}

Allergen any_allergen() {
    return {any_text(), maybe_decimal()};
}
GearNames any_gear() {
    return any_flag() ? GearNames{} : any_list(any_text);
}
FullSettlement any_settlement() {
    return {any_volume(), any_volume()};
}

AdditionContents any_contents() {
    return {any_mass(), any_mass(), any_mass(), any_mass(), any_mass(), any_mass(),
            any_mass(), any_mass(), any_mass(), any_mass(), any_mass(), any_mass()};
}

Length any_length() {
    return Length::from_um(any_whole());
}

Gauge any_gauge() {
    if (any_flag()) return {};
    return {any_mass(),
            any_flag() ? std::optional(any_of({VesselShape::upright, VesselShape::lying, VesselShape::table}))
                       : std::nullopt,
            any_length(), any_length(), any_list([] {
                return DipMark{any_length(), any_volume()};
            })};
}

Quantity any_quantity() {
    return any_of({Quantity::gravity, Quantity::ph, Quantity::ta, Quantity::temperature, Quantity::dissolved_co2,
                   Quantity::weight});
}

Measured any_measured() {
    return {any_quantity(), any_decimal(), any_text()};
}

LossCause any_cause() {
    return any_of({LossCause::sample, LossCause::evaporation, LossCause::served, LossCause::spill, LossCause::dump,
                   LossCause::lees, LossCause::unknown});
}

// One maker a body type, in the order of the variant. A move's parts are small: their sum is watched elsewhere.
Body any_body_of(std::size_t kind) {
    switch (kind) {
        case 0:
            return VesselJoins{any_text(),
                               any_text(),
                               any_volume(),
                               any_volume(),
                               any_of({VesselRole::solera, VesselRole::finishing, VesselRole::serving}),
                               any_text(),
                               any_text(),
                               any_gauge()};
        case 1:
            return VesselLeaves{maybe_key()};
        case 2:
            return LotEnters{maybe_key(),           any_text(),       any_lot_kind(),  any_volume(),
                             any_reason(),          maybe_day(),      maybe_day(),     any_flag(),
                             maybe_decimal(),       maybe_decimal(),  maybe_decimal(), maybe_decimal(),
                             maybe_decimal(),       maybe_decimal(),  maybe_decimal(), any_list(any_allergen),
                             any_list(any_culture), any_settlement(), any_gear()};
        case 3:
            return Move{maybe_key(),      any_list([] {
                            return Destination{maybe_key(), any_volume()}; }),
                        any_volume(),     any_reason(),
                        any_settlement(), any_gear()};
        case 4:
            return Loss{maybe_key(), any_volume(), any_cause()};
        case 5:
            return Addition{maybe_key(),
                            any_of({AdditionKind::fruit, AdditionKind::spice, AdditionKind::oak, AdditionKind::hops,
                                    AdditionKind::sugar, AdditionKind::acid, AdditionKind::enzyme,
                                    AdditionKind::nutrient, AdditionKind::other}),
                            any_text(),
                            any_text(),
                            any_mass(),
                            any_volume(),
                            any_flag(),
                            any_lot_kind(),
                            any_volume(),
                            any_volume(),
                            any_volume(),
                            any_contents(),
                            any_list(any_allergen),
                            any_list(any_culture)};
        case 6:
            return Lift{maybe_key()};
        case 7:
            return Pitch{maybe_key(), any_culture(), any_flag(), any_text()};
        case 8:
            return Reading{maybe_key(), any_list(any_measured), maybe_decimal(), any_text(), any_volume(), any_gear()};
        case 9:
            return Tasting{maybe_key(),     maybe_commitment(), any_map(any_decimal), any_list(any_text), any_text(),
                           maybe_decimal(), any_volume(),       any_gear(),           any_map(any_text)};
        case 10:
            return Package{maybe_key(), any_text(), any_text(),   any_text(),   any_int(),  any_volume(), any_decimal(),
                           any_flag(),  any_mass(), any_volume(), any_volume(), any_text(), any_gear()};
        case 11:
            return Take{
                maybe_key(),
                any_int(),
                any_of({TakeCause::opened, TakeCause::given, TakeCause::sold, TakeCause::broken, TakeCause::returned}),
                maybe_commitment(),
                maybe_key(),
                any_text()};
        case 12:
            if (any_flag()) return Care{maybe_key(), any_text()};
            return Care{maybe_key(),
                        any_text(),
                        any_flag() ? std::optional(any_of({CareMethod::emptied, CareMethod::rinsed, CareMethod::cleaned,
                                                           CareMethod::sanitised}))
                                   : std::nullopt,
                        any_flag(),
                        any_flag() ? std::optional(any_of({KillAgent::heat, KillAgent::caustic, KillAgent::acid,
                                                           KillAgent::peracetic, KillAgent::chlorine, KillAgent::iodine,
                                                           KillAgent::alcohol, KillAgent::other}))
                                   : std::nullopt,
                        any_flag(),
                        any_gear()};
        case 13:
            return Note{maybe_key(), any_text()};
        case 14:
            return Snapshot{any_of({SnapshotKind::label, SnapshotKind::verdict}), maybe_key(), any_text(),
                            any_map(any_text)};
        case 15:
            return Acknowledge{any_text(), maybe_key(), any_text()};
        case 16:
            return Interval{
                maybe_key(),
                any_flag() ? std::optional(any_of({VesselRole::solera, VesselRole::finishing, VesselRole::serving}))
                           : std::nullopt,
                any_of({Recurring::reading, Recurring::tasting, Recurring::pull, Recurring::top_up}), any_int()};
        case 17:
            return Settle{
                maybe_key(),
                any_of({FoundBy::dip, FoundBy::ullage, FoundBy::weight, FoundBy::volume, FoundBy::full, FoundBy::count}),
                any_length(),
                any_mass(),
                any_volume(),
                any_volume(),
                any_volume(),
                any_volume(),
                any_cause(),
                any_int(),
                any_int(),
                any_int()};
        case 18:
            return Calibrate{any_text(), any_quantity(), any_decimal(), any_text()};
        case 19:
            return LoggerFile{
                maybe_key(), any_text(), any_text(), any_int(), Instant{any_whole()}, maybe_decimal(), any_list([] {
                    return LoggedPoint{any_int(), any_decimal()};
                })};
            return Treat{maybe_key(),
                         any_of({Treatment::heat, Treatment::filter, Treatment::sulphite, Treatment::sorbate}),
                         maybe_decimal(),
                         maybe_decimal(),
                         maybe_decimal(),
                         any_list(any_text),
                         any_list(any_text),
                         any_list(any_text),
                         any_list(any_allergen),
                         any_text()};
        case 21:
            return Confirm{maybe_key(), any_text(), any_text()};
        case 22:
            return Target{maybe_key(), any_list([] {
                              return TargetFigure{any_text(), maybe_decimal(), maybe_decimal(), any_decimal()};
                          }),
                          any_text()};
        case 23:
            return Decide{
                maybe_key(),
                any_volume(),
                any_text(),
                any_text(),
                any_decimal(),
                any_text(),
                any_decimal(),
                any_flag(),
                any_decimal(),
                any_list([] {
                    return ForecastFigure{any_text(), any_decimal(), any_decimal(), any_decimal(), any_decimal()};
                }),
                any_list([] {
                    return Alternative{any_text(), any_decimal()};
                }),
                any_text()};
        default:
            return Void{};
    }
}

// Every alternative but Unknown, which cannot be written.
constexpr std::size_t k_known_kinds = std::variant_size_v<Body> - 1;
static_assert(k_known_kinds == 25, "give the new kind a maker in any_body_of and full_entry_of_every_kind");

}  // namespace

std::string sitting_key(unsigned number) {
    char text[40];
    std::snprintf(text, sizeof text, "0190f3c8-%04x-7000-8000-0000%08x", number & 0xFFFFU, number);
    return text;
}

BookFacts facts() {
    return {"6f1c1d0e-3b52-4c1a-9d55-0a1b2c3d4e5f",
            "Kiln Lane",
            "Europe/Lisbon",
            Gallons::us,
            true,
            Instant{1'700'000'000'000},
            1};
}

Person person(const std::string& name, char salt_digit) {
    const std::string salt(32, salt_digit);
    return {commitment_of(salt, name), salt, name};
}

Sitting sitting_of(const std::string& key, std::vector<Body> bodies, std::int64_t at_ms) {
    Sitting sitting{key, {}, {}};
    const auto size = static_cast<int>(bodies.size());
    for (int i = 0; i < size; ++i) {
        Entry entry;
        entry.key = {key, i};
        entry.sitting_size = size;
        entry.place = {Instant{at_ms}, entry.key.text()};
        entry.body = std::move(bodies[static_cast<std::size_t>(i)]);
        sitting.entries.push_back(std::move(entry));
    }
    return sitting;
}

Sitting numbered_sitting(unsigned number, int count) {
    std::vector<Body> bodies;
    const std::string key = sitting_key(number);
    for (int i = 0; i < count; i += 2) {
        VesselJoins vessel;
        vessel.name = "Vessel " + std::to_string(number) + "." + std::to_string(i);
        vessel.capacity = Volume::from_ul(54'000'000);
        LotEnters lot;
        lot.vessel = {key, i};
        lot.volume = Volume::from_ul(50'000'000 + static_cast<std::int64_t>(number));
        lot.gravity = Decimal{1012, 3};
        bodies.emplace_back(vessel);
        if (i + 1 < count) bodies.emplace_back(lot);
    }
    return sitting_of(key, std::move(bodies), 1'000 + static_cast<std::int64_t>(number));
}

std::vector<Entry> full_entry_of_every_kind() {
    const EntryKey vessel{sitting_key(1), 0};
    const EntryKey run{sitting_key(2), 3};
    const std::string someone = person("Ines").commitment;
    const auto ul = [](std::int64_t n) { return Volume::from_ul(n); };
    const auto mg = [](std::int64_t n) { return Mass::from_mg(n); };
    const auto um = [](std::int64_t n) { return Length::from_um(n); };
    const Culture culture{"House sour culture", "mixed-sour", KillerPhenotype::killer, ToxinType::k1, Diastatic::yes};
    const Allergen gluten{"gluten", Decimal{125, 1}};
    const Day day{std::chrono::year{2024}, std::chrono::month{3}, std::chrono::day{9}};
    std::vector<Body> bodies{
        VesselJoins{"North barrel",
                    "N",
                    ul(228'000'000),
                    ul(2'000'000),
                    VesselRole::solera,
                    "oak",
                    "back wall",
                    {mg(48'000'000),
                     VesselShape::lying,
                     um(690'000),
                     um(560'000),
                     {{um(100'000), ul(20'000'000)}, {um(300'000), ul(90'000'000)}}}},
        VesselLeaves{vessel},
        LotEnters{vessel,
                  "Spring wort",
                  LotKind::beer,
                  ul(54'000'000),
                  Reason::refill,
                  day,
                  day,
                  true,
                  Decimal{1048, 3},
                  Decimal{10120, 4},
                  Decimal{59, 1},
                  Decimal{12, 0},
                  Decimal{9, 0},
                  Decimal{350, 2},
                  Decimal{72, 1},
                  {gluten},
                  {culture},
                  {ul(100), ul(200)},
                  {"long hose"}},
        Move{vessel, {{run, ul(18'000'000)}}, ul(150'000), Reason::split, {ul(1), ul(2)}, {"pump"}},
        Loss{vessel, ul(250'000), LossCause::sample},
        Addition{vessel,
                 AdditionKind::fruit,
                 "sour_cherry_fresh",
                 "sour cherry, fresh",
                 mg(3'000'000),
                 ul(5),
                 true,
                 LotKind::fruit,
                 ul(2'600'000),
                 ul(400'000),
                 ul(90'000),
                 {mg(1), mg(2), mg(3), mg(4), mg(5), mg(6), mg(7), mg(8), mg(9), mg(10), mg(11), mg(12)},
                 {gluten},
                 {culture}},
        Lift{run},
        Pitch{vessel, culture, true, "dregs of run 7"},
        Reading{vessel,
                {{Quantity::gravity, Decimal{10080, 4}, "SG"}},
                Decimal{185, 1},
                "hydrometer",
                ul(200'000),
                {"thief"}},
        Tasting{vessel,
                someone,
                {{"sour", Decimal{65, 1}}},
                {"acetic"},
                "bright",
                Decimal{7, 0},
                ul(100'000),
                {"thief"},
                {{"sour", "like sea water"}}},
        Package{vessel,
                "24-03",
                "champagne-750",
                "Champagne 750 mL",
                24,
                ul(750'000),
                Decimal{4, 2},
                true,
                mg(120'000),
                ul(74'400),
                ul(300'000),
                "cellar",
                {"filler"}},
        Take{run, 2, TakeCause::returned, someone, vessel, "for the neighbours"},
        Care{vessel, "hot water, twice", CareMethod::sanitised, true, KillAgent::heat, true, {"long hose", "pump"}},
        Note{vessel, "smells of hay"},
        Snapshot{SnapshotKind::label, run, "North barrel 24-03", {{"alcohol", "5.9"}}},
        Acknowledge{"gas.do_not", run, "seen"},
        Interval{vessel, VesselRole::finishing, Recurring::top_up, 42},
        Settle{vessel, FoundBy::dip, um(315'000), mg(61'200'000), ul(52'400'000), ul(600'000), ul(1'600'000),
               ul(200'000), LossCause::unknown, 22, 1, 2},
        Calibrate{"pH meter", Quantity::ph, Decimal{-6, 2}, "pH"},
        LoggerFile{vessel,
                   "cellar.csv",
                   "back wall logger",
                   1440,
                   Instant{1'709'000'000'000},
                   Decimal{5, 2},
                   {{0, Decimal{184, 1}}, {600, Decimal{185, 1}}}},
        Treat{run,
              Treatment::heat,
              Decimal{625, 1},
              Decimal{20, 0},
              Decimal{45, 2},
              {"pedio"},
              {"ale_clean"},
              {"wild_unknown"},
              {gluten},
              "in the bath"},
        Confirm{vessel, "House sour culture", "plate"},
        Target{vessel, {{"sourness", Decimal{5, 0}, Decimal{7, 0}, Decimal{2, 0}}}, "as turn 4"},
        Decide{vessel,
               Volume::from_ul(10'000'000),
               "fruit_sour_cherry",
               "onto_beer",
               Decimal{160, 0},
               "g/L",
               Decimal{60, 0},
               true,
               Decimal{42, 2},
               {{"sourness", Decimal{71, 1}, Decimal{8, 1}, Decimal{62, 1}, Decimal{11, 1}}},
               {{"Leave it alone and package as it is", Decimal{12, 2}}},
               "short of fruit"},
        Void{},
    };
    Sitting sitting = sitting_of(sitting_key(9), std::move(bodies), 1'710'000'000'000);
    for (Entry& entry : sitting.entries) {
        entry.supersedes = run;
        entry.reason = "misread";
        entry.by = someone;
        entry.origin_book = "0d9c2a51-6f7e-4b0a-8c3d-1e2f3a4b5c6d";
        entry.origin_hash = std::string(64, 'c');
        entry.recorded = Instant{1'710'000'123'456};
    }
    return sitting.entries;
}

int kinds_of_entries() {
    return static_cast<int>(k_known_kinds);
}

bool same_entry(const Entry& a, const Entry& b) {
    return a.key == b.key && a.sitting_size == b.sitting_size && a.place == b.place && a.supersedes == b.supersedes &&
           a.reason == b.reason && a.by == b.by && a.origin_book == b.origin_book && a.origin_hash == b.origin_hash &&
           a.body == b.body && a.recorded == b.recorded;
}

rc::Gen<Body> random_body() {
    return rc::gen::exec([] { return any_body_of(*rc::gen::inRange<std::size_t>(0, k_known_kinds)); });
}

rc::Gen<Entry> random_entry() {
    return rc::gen::exec([] {
        Entry entry;
        entry.key = any_key();
        entry.sitting_size = *rc::gen::inRange(entry.key.index + 1, 2'000'000);
        entry.place = {Instant{any_whole()}, entry.key.text()};
        if (any_flag()) entry.place.path = any_key().text() + "/" + entry.place.path;
        if (any_flag()) entry.supersedes = any_key();
        if (entry.supersedes && any_flag()) entry.place.path = entry.supersedes->text();
        entry.reason = any_text();
        entry.by = maybe_commitment();
        if (any_flag()) {
            entry.origin_book = facts().id;
            entry.origin_hash = commitment_of("000102030405060708090a0b0c0d0e0f", any_text());
        }
        entry.recorded = Instant{any_whole()};
        entry.body = *random_body();
        return entry;
    });
}

}  // namespace undercroft::store::testing
