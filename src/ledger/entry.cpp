#include "ledger/entry.hpp"

#include <array>
#include <cstdlib>
#include <utility>

namespace undercroft::ledger {
namespace {

template <class E>
struct Words;

#define UNDERCROFT_WORDS(E, ...)                                                              \
    template <>                                                                               \
    struct Words<E> {                                                                         \
        static constexpr auto k_list = std::to_array<std::pair<E, const char*>>(__VA_ARGS__); \
    };

UNDERCROFT_WORDS(VesselRole, {{VesselRole::solera, "solera"},
                              {VesselRole::finishing, "finishing"},
                              {VesselRole::serving, "serving"}})
UNDERCROFT_WORDS(LotKind, {{LotKind::beer, "beer"},
                           {LotKind::fruit, "fruit"},
                           {LotKind::water, "water"},
                           {LotKind::syrup, "syrup"},
                           {LotKind::spirit, "spirit"},
                           {LotKind::unknown, "unknown"}})
UNDERCROFT_WORDS(Reason, {{Reason::fill, "fill"},
                          {Reason::pull, "pull"},
                          {Reason::refill, "refill"},
                          {Reason::top_up, "top-up"},
                          {Reason::rack, "rack"},
                          {Reason::blend, "blend"},
                          {Reason::serve, "serve"},
                          {Reason::split, "split"}})
UNDERCROFT_WORDS(LossCause, {{LossCause::sample, "sample"},
                             {LossCause::evaporation, "evaporation"},
                             {LossCause::served, "served"},
                             {LossCause::spill, "spill"},
                             {LossCause::dump, "dump"},
                             {LossCause::lees, "lees"},
                             {LossCause::unknown, "unknown"}})
UNDERCROFT_WORDS(AdditionKind, {{AdditionKind::fruit, "fruit"},
                                {AdditionKind::spice, "spice"},
                                {AdditionKind::oak, "oak"},
                                {AdditionKind::hops, "hops"},
                                {AdditionKind::sugar, "sugar"},
                                {AdditionKind::acid, "acid"},
                                {AdditionKind::enzyme, "enzyme"},
                                {AdditionKind::nutrient, "nutrient"},
                                {AdditionKind::other, "other"}})
UNDERCROFT_WORDS(KillerPhenotype, {{KillerPhenotype::sensitive, "sensitive"},
                                   {KillerPhenotype::neutral, "neutral"},
                                   {KillerPhenotype::killer, "killer"},
                                   {KillerPhenotype::unknown, "unknown"},
                                   {KillerPhenotype::not_applicable, "not applicable"}})
UNDERCROFT_WORDS(ToxinType, {{ToxinType::none, "none"},
                             {ToxinType::k1, "K1"},
                             {ToxinType::k2, "K2"},
                             {ToxinType::k28, "K28"},
                             {ToxinType::klus, "Klus"},
                             {ToxinType::unknown, "unknown"}})
UNDERCROFT_WORDS(Diastatic, {{Diastatic::no, "no"}, {Diastatic::yes, "yes"}, {Diastatic::unknown, "unknown"}})
UNDERCROFT_WORDS(TakeCause, {{TakeCause::opened, "opened"},
                             {TakeCause::given, "given"},
                             {TakeCause::sold, "sold"},
                             {TakeCause::broken, "broken"},
                             {TakeCause::returned, "returned"}})
UNDERCROFT_WORDS(SnapshotKind, {{SnapshotKind::label, "label"}, {SnapshotKind::verdict, "verdict"}})
UNDERCROFT_WORDS(Recurring, {{Recurring::reading, "reading"},
                             {Recurring::tasting, "tasting"},
                             {Recurring::pull, "pull"},
                             {Recurring::top_up, "top-up"}})
UNDERCROFT_WORDS(VesselShape,
                 {{VesselShape::upright, "upright"}, {VesselShape::lying, "lying"}, {VesselShape::table, "table"}})
UNDERCROFT_WORDS(FoundBy, {{FoundBy::dip, "dip"},
                           {FoundBy::ullage, "ullage"},
                           {FoundBy::weight, "weight"},
                           {FoundBy::volume, "volume"},
                           {FoundBy::full, "full"},
                           {FoundBy::count, "count"}})
UNDERCROFT_WORDS(CareMethod, {{CareMethod::emptied, "emptied"},
                              {CareMethod::rinsed, "rinsed"},
                              {CareMethod::cleaned, "cleaned"},
                              {CareMethod::sanitised, "sanitised"}})
UNDERCROFT_WORDS(KillAgent, {{KillAgent::heat, "heat"},
                             {KillAgent::caustic, "caustic"},
                             {KillAgent::acid, "acid"},
                             {KillAgent::peracetic, "peracetic"},
                             {KillAgent::chlorine, "chlorine"},
                             {KillAgent::iodine, "iodine"},
                             {KillAgent::alcohol, "alcohol"},
                             {KillAgent::other, "other"}})
UNDERCROFT_WORDS(Treatment, {{Treatment::heat, "heat"},
                             {Treatment::filter, "filter"},
                             {Treatment::sulphite, "sulphite"},
                             {Treatment::sorbate, "sorbate"}})
UNDERCROFT_WORDS(Quantity, {{Quantity::gravity, "gravity"},
                            {Quantity::ph, "ph"},
                            {Quantity::ta, "ta"},
                            {Quantity::temperature, "temperature"},
                            {Quantity::dissolved_co2, "dissolved_co2"},
                            {Quantity::weight, "weight"}})

#undef UNDERCROFT_WORDS

template <class E>
const char* word_of(E value) {
    for (const auto& [known, text] : Words<E>::k_list)
        if (known == value) return text;
    std::abort();  // an enum value outside its own list is our bug
}

// Visitor helper: one lambda per body type.
template <class... F>
struct Overloaded : F... {
    using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

}  // namespace

std::string EntryKey::text() const {
    constexpr std::size_t k_digits = 6;
    std::string text;
    text.reserve(sitting.size() + 1 + k_digits);
    text += sitting;
    text += ":000000";
    int left = index;
    for (std::size_t i = 0; i < k_digits; ++i, left /= 10)
        text[text.size() - 1 - i] = static_cast<char>('0' + left % 10);
    return text;
}

std::optional<EntryKey> EntryKey::from_text(const std::string& text) {
    const auto colon = text.rfind(':');
    if (colon == std::string::npos || colon == 0 || text.size() - colon != 7) return std::nullopt;
    int index = 0;
    for (const char c : text.substr(colon + 1)) {
        if (c < '0' || c > '9') return std::nullopt;
        index = index * 10 + (c - '0');
    }
    return EntryKey{text.substr(0, colon), index};
}

const char* word(VesselRole value) {
    return word_of(value);
}
const char* word(LotKind value) {
    return word_of(value);
}
const char* word(Reason value) {
    return word_of(value);
}
const char* word(LossCause value) {
    return word_of(value);
}
const char* word(AdditionKind value) {
    return word_of(value);
}
const char* word(KillerPhenotype value) {
    return word_of(value);
}
const char* word(ToxinType value) {
    return word_of(value);
}
const char* word(Diastatic value) {
    return word_of(value);
}
const char* word(TakeCause value) {
    return word_of(value);
}
const char* word(SnapshotKind value) {
    return word_of(value);
}
const char* word(Recurring value) {
    return word_of(value);
}
const char* word(VesselShape value) {
    return word_of(value);
}
const char* word(FoundBy value) {
    return word_of(value);
}
const char* word(CareMethod value) {
    return word_of(value);
}
const char* word(KillAgent value) {
    return word_of(value);
}
const char* word(Treatment value) {
    return word_of(value);
}
const char* word(Quantity value) {
    return word_of(value);
}

template <class E>
std::optional<E> from_word(const std::string& text) {
    for (const auto& [known, spelling] : Words<E>::k_list)
        if (text == spelling) return known;
    return std::nullopt;
}

template <class E>
std::vector<std::string> all_words() {
    std::vector<std::string> words;
    for (const auto& [known, spelling] : Words<E>::k_list) words.emplace_back(spelling);
    return words;
}

template std::optional<VesselRole> from_word<VesselRole>(const std::string&);
template std::optional<LotKind> from_word<LotKind>(const std::string&);
template std::optional<Reason> from_word<Reason>(const std::string&);
template std::optional<LossCause> from_word<LossCause>(const std::string&);
template std::optional<AdditionKind> from_word<AdditionKind>(const std::string&);
template std::optional<KillerPhenotype> from_word<KillerPhenotype>(const std::string&);
template std::optional<ToxinType> from_word<ToxinType>(const std::string&);
template std::optional<Diastatic> from_word<Diastatic>(const std::string&);
template std::optional<TakeCause> from_word<TakeCause>(const std::string&);
template std::optional<SnapshotKind> from_word<SnapshotKind>(const std::string&);
template std::optional<Recurring> from_word<Recurring>(const std::string&);
template std::optional<VesselShape> from_word<VesselShape>(const std::string&);
template std::optional<FoundBy> from_word<FoundBy>(const std::string&);
template std::optional<CareMethod> from_word<CareMethod>(const std::string&);
template std::optional<KillAgent> from_word<KillAgent>(const std::string&);
template std::optional<Treatment> from_word<Treatment>(const std::string&);
template std::optional<Quantity> from_word<Quantity>(const std::string&);

template std::vector<std::string> all_words<VesselRole>();
template std::vector<std::string> all_words<LotKind>();
template std::vector<std::string> all_words<Reason>();
template std::vector<std::string> all_words<LossCause>();
template std::vector<std::string> all_words<AdditionKind>();
template std::vector<std::string> all_words<KillerPhenotype>();
template std::vector<std::string> all_words<ToxinType>();
template std::vector<std::string> all_words<Diastatic>();
template std::vector<std::string> all_words<TakeCause>();
template std::vector<std::string> all_words<SnapshotKind>();
template std::vector<std::string> all_words<Recurring>();
template std::vector<std::string> all_words<VesselShape>();
template std::vector<std::string> all_words<FoundBy>();
template std::vector<std::string> all_words<CareMethod>();
template std::vector<std::string> all_words<KillAgent>();
template std::vector<std::string> all_words<Treatment>();
template std::vector<std::string> all_words<Quantity>();

std::string kind_word(const Body& body) {
    return std::visit(Overloaded{
                          [](const VesselJoins&) -> std::string { return "vessel"; },
                          [](const VesselLeaves&) -> std::string { return "retire"; },
                          [](const LotEnters&) -> std::string { return "lot"; },
                          [](const Move&) -> std::string { return "move"; },
                          [](const Loss&) -> std::string { return "loss"; },
                          [](const Addition&) -> std::string { return "add"; },
                          [](const Lift&) -> std::string { return "lift"; },
                          [](const Pitch&) -> std::string { return "pitch"; },
                          [](const Reading&) -> std::string { return "reading"; },
                          [](const Tasting&) -> std::string { return "tasting"; },
                          [](const Package&) -> std::string { return "package"; },
                          [](const Take&) -> std::string { return "take"; },
                          [](const Care&) -> std::string { return "care"; },
                          [](const Note&) -> std::string { return "note"; },
                          [](const Snapshot&) -> std::string { return "snapshot"; },
                          [](const Acknowledge&) -> std::string { return "acknowledge"; },
                          [](const Interval&) -> std::string { return "interval"; },
                          [](const Settle&) -> std::string { return "settle"; },
                          [](const Calibrate&) -> std::string { return "calibrate"; },
                          [](const LoggerFile&) -> std::string { return "logger"; },
                          [](const Treat&) -> std::string { return "treat"; },
                          [](const Confirm&) -> std::string { return "confirm"; },
                          [](const Target&) -> std::string { return "target"; },
                          [](const Decide&) -> std::string { return "decide"; },
                          [](const Void&) -> std::string { return "void"; },
                          [](const Unknown& unknown) { return unknown.kind; },
                      },
                      body);
}

namespace {

template <std::size_t... I>
std::vector<std::string> words_of_bodies(std::index_sequence<I...>) {
    return {kind_word(std::variant_alternative_t<I, Body>{})...};
}

}  // namespace

std::vector<std::string> kind_words() {
    std::vector<std::string> words = words_of_bodies(std::make_index_sequence<std::variant_size_v<Body>>{});
    std::erase(words, "");  // Unknown has the word of whoever wrote it
    return words;
}

}  // namespace undercroft::ledger
