// Stock-takes, what vessels are like inside, and what instruments are off by.
#include <algorithm>
#include <cmath>

#include "app/bodies.hpp"
#include "app/names.hpp"
#include "base/nearest.hpp"
#include "engine/state/gauging.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

Result<Length> positive_length(std::string_view field, const std::string& text) {
    TRY(const Length length, parse_length(field, text));
    if (length <= Length{})
        return fail(ErrorKind::bad_input, std::string(field),
                    text + " is not above zero. Write a length such as 42 cm.");
    return length;
}

Result<Mass> positive_mass(std::string_view field, const std::string& text) {
    TRY(const Mass mass, parse_mass(field, text));
    if (mass <= Mass{})
        return fail(ErrorKind::bad_input, std::string(field), text + " is not above zero. Write a mass such as 12 kg.");
    return mass;
}

Result<std::vector<DipMark>> marks_from(const std::vector<std::string>& texts, const VesselJoins& vessel,
                                        Gallons gallons) {
    std::vector<DipMark> marks;
    for (const std::string& text : texts) {
        const auto equals = text.find('=');
        if (equals == std::string::npos)
            return fail(ErrorKind::bad_input, "dip-mark",
                        "\"" + text + "\" is no mark of a dip stick. Write depth=volume, such as \"10 cm=8 L\".");
        DipMark mark;
        TRY(mark.depth, positive_length("dip-mark", text.substr(0, equals)));
        TRY(mark.volume, positive_volume("dip-mark", text.substr(equals + 1), gallons));
        marks.push_back(mark);
    }
    std::sort(marks.begin(), marks.end(), [](const DipMark& a, const DipMark& b) { return a.depth < b.depth; });
    for (std::size_t i = 0; i < marks.size(); ++i) {
        if (i > 0 && (marks[i].depth == marks[i - 1].depth || marks[i].volume <= marks[i - 1].volume))
            return fail(ErrorKind::bad_input, "dip-mark",
                        text_of(marks[i].depth) + " holds " + text_of(marks[i].volume) + " and " +
                            text_of(marks[i - 1].depth) + " " + text_of(marks[i - 1].volume) +
                            ": a deeper mark holds more than the one before it.");
        if (marks[i].volume > vessel.capacity)
            return fail(ErrorKind::bad_input, "dip-mark",
                        text_of(marks[i].volume) + " is more than the " + text_of(vessel.capacity) + " that " +
                            vessel.name + " holds brimful.");
    }
    return marks;
}

// The ways a stock-take can be done, as the command line calls them.
struct Way {
    FoundBy by;
    const std::string* text;
};

std::vector<Way> ways_of(const TakeStock& act) {
    static const std::string k_said = "full";
    std::vector<Way> ways;
    for (const Way& way :
         {Way{FoundBy::dip, &act.dip}, Way{FoundBy::ullage, &act.ullage}, Way{FoundBy::weight, &act.weight},
          Way{FoundBy::volume, &act.volume}, Way{FoundBy::count, &act.count}})
        if (!way.text->empty()) ways.push_back(way);
    if (act.full) ways.push_back({FoundBy::full, &k_said});
    return ways;
}

Volume solids_in(const Cellar& cellar, const VesselState& vessel) {
    Volume solids;
    for (const int index : vessel.additions_inside) solids += cellar.additions[at_index(index)].as.solids;
    return solids;
}

// A figure somebody read off a stick claims no microlitres.
Volume to_the_millilitre(Volume volume) {
    return Volume::from_ul((volume.ul() + 500) / 1000 * 1000);
}

class VesselStock {
public:
    VesselStock(const TakeStock& act, int vessel, Here& here)
        : m_act(act),
          m_here(here),
          m_vessel(here.cellar.vessels[at_index(vessel)]),
          m_state(here.states.vessels[at_index(vessel)]),
          m_stock(here.states.stock[at_index(vessel)]),
          m_solids(solids_in(here.cellar, m_vessel)) {}

    [[nodiscard]] Result<Settle> settle(const Way& way) {
        Settle body;
        body.subject = m_vessel.key;
        body.found_by = way.by;
        if (way.by == FoundBy::dip || way.by == FoundBy::ullage) {
            TRY_VOID(by_depth(*way.text, body));
        } else if (way.by == FoundBy::weight) {
            TRY_VOID(by_weight(*way.text, body));
        } else if (way.by == FoundBy::volume) {
            TRY_VOID(by_volume(*way.text, body));
        } else {
            TRY_VOID(by_full(body));
        }
        TRY_VOID(fits(body));
        const Volume held = m_vessel.liquid.volume;
        if (body.found < held) body.missing = held - body.found;
        if (body.found > held) body.surplus = body.found - held;
        TRY(body.cause, cause());
        tell(body, held);
        return body;
    }

private:
    [[nodiscard]] Result<void> by_depth(const std::string& text, Settle& body) {
        const bool ullage = body.found_by == FoundBy::ullage;
        TRY(body.depth, parse_length(word(body.found_by), text));
        Length sd = engine::k_dip_sd;
        if (!m_act.within.empty()) {
            TRY(sd, positive_length("within", m_act.within));
        }
        Length depth = body.depth;
        if (ullage) {
            const Length height = m_vessel.as.gauge.inner_height;
            if (m_vessel.as.gauge.shape && height == Length{})
                return fail(ErrorKind::bad_input, "ullage",
                            "Nobody has said how high " + m_vessel.as.name + " is inside.", {},
                            "Dip the liquid instead, or correct the vessel with --inner-height.");
            if (m_vessel.as.gauge.shape) depth = height - body.depth;
            if (m_vessel.as.gauge.shape && (body.depth < Length{} || depth < Length{}))
                return fail(ErrorKind::bad_input, "ullage",
                            text + " is no head space of " + m_vessel.as.name + ", which is " + text_of(height) +
                                " high inside.");
        }
        TRY(const engine::Gauged gauged, engine::gauged_by_dip(m_vessel.as, depth, sd));
        body.found = std::max(Volume{}, to_the_millilitre(gauged.volume) - m_solids);
        body.found_sd = to_the_millilitre(gauged.sd);
        if (m_solids > Volume{})
            m_here.remarks.push_back(text_of(m_solids, m_here.unit) + " of what the stick shows is fruit in " +
                                     m_vessel.as.name + ", and taken off.");
        return {};
    }

    [[nodiscard]] Result<void> by_weight(const std::string& text, Settle& body) {
        TRY(body.weight, positive_mass("weight", text));
        Mass sd = engine::k_scale_sd;
        if (!m_act.within.empty()) {
            TRY(sd, positive_mass("within", m_act.within));
        }
        const Mass tare = m_vessel.as.gauge.tare;
        if (tare == Mass{})
            return fail(ErrorKind::bad_input, "weight", "Nobody has said what " + m_vessel.as.name + " weighs empty.",
                        {}, "Correct the vessel with --tare, or dip it.");
        // Fruit weighs about what the liquid it displaces does.
        const Mass fruit = Mass::from_grams(m_solids.in_litres() * 1000.0);
        const Mass net = body.weight - tare - fruit;
        if (net < Mass{})
            return fail(ErrorKind::bad_input, "weight", text + " is less than " + m_vessel.as.name + " weighs empty.",
                        {{"tare", text_of(tare)}, {"of fruit in it, about", text_of(fruit)}});
        const auto gravity = m_state.gravity();
        const engine::Gauged gauged =
            engine::gauged_by_weight(net, sd, gravity ? gravity->mean : 1.010, gravity ? gravity->sd : 0.010);
        body.found = to_the_millilitre(gauged.volume);
        body.found_sd = to_the_millilitre(gauged.sd);
        return {};
    }

    [[nodiscard]] Result<void> by_volume(const std::string& text, Settle& body) {
        TRY(body.found, parse_volume("volume", text, m_here.gallons));
        if (body.found < Volume{})
            return fail(ErrorKind::bad_input, "volume", text + " is below nothing. Write what is there, such as 18 L.");
        body.found_sd = Volume::from_litres(engine::k_stated_sd * body.found.in_litres());
        return stated_spread(body);
    }

    [[nodiscard]] Result<void> by_full(Settle& body) {
        body.found = m_vessel.full() - m_solids;
        if (body.found <= Volume{})
            return fail(ErrorKind::impossible, m_vessel.as.name,
                        m_vessel.as.name + " has no room for liquid beside its fruit.");
        body.found_sd = Volume::from_litres(engine::k_full_sd * m_vessel.full().in_litres());
        return stated_spread(body);
    }

    [[nodiscard]] Result<void> stated_spread(Settle& body) const {
        if (m_act.within.empty()) return {};
        TRY(body.found_sd, positive_volume("within", m_act.within, m_here.gallons));
        return {};
    }

    // A scale may show a little more than goes in: as much as its spread allows is taken for brimful.
    [[nodiscard]] Result<void> fits(Settle& body) const {
        const Volume room = m_vessel.as.capacity - m_solids;
        if (body.found <= room) return {};
        if (body.found - room > body.found_sd * 2 || body.found_by == FoundBy::volume)
            return fail(ErrorKind::impossible, m_vessel.as.name, m_vessel.as.name + " cannot hold that much.",
                        {{"found", text_with_spread(body.found, body.found_sd, m_here.unit)},
                         {"room, brimful less fruit", text_of(room, m_here.unit)}},
                        "Measure again; if it does hold that, correct its capacity.");
        body.found = room;
        return {};
    }

    [[nodiscard]] Result<LossCause> cause() const {
        const std::string& text = m_act.cause;
        if (text.empty() || text == word(LossCause::evaporation)) return LossCause::evaporation;
        if (text == word(LossCause::unknown)) return LossCause::unknown;
        return fail(ErrorKind::bad_input, "cause", "\"" + text + "\" is none of: evaporation, unknown.", {},
                    "What was spilt, served or dumped is a loss of its own.");
    }

    void tell(const Settle& body, Volume held) {
        const std::string& name = m_vessel.as.name;
        const auto volume = [this](Volume value) { return text_of(value, m_here.unit); };
        std::string said = "Found " + text_with_spread(body.found, body.found_sd, m_here.unit) + " in " + name +
                           "; the book said " + volume(held) + ": ";
        if (body.missing > Volume{})
            said += volume(body.missing) + " less, booked as " +
                    (body.cause == LossCause::evaporation ? "evaporation." : "an unknown loss.");
        else if (body.surplus > Volume{})
            said += volume(body.surplus) + " more, booked as found, of the make-up and age of what is there.";
        else
            said += "the book was right.";
        m_here.remarks.push_back(said);
        const Volume apart = body.missing + body.surplus;
        const double spread = std::hypot(body.found_sd.in_litres(), m_stock.sd_litres);
        if (apart > Volume{} && apart.in_litres() <= spread)
            m_here.remarks.push_back("That is within the spread: stick and book together are good to ± " +
                                     spread_text(Volume::from_litres(spread), m_here.unit) + ".");
        if (body.missing == Volume{} || body.cause != LossCause::evaporation) return;
        const auto likely = engine::likely_evaporation(m_vessel.as, m_stock, m_here.at);
        if (likely && body.missing.in_litres() > likely->high + 2.0 * spread)
            m_here.remarks.push_back("That is more than " + m_vessel.as.material +
                                     " usually gives off: " + volume(Volume::from_litres(likely->low)) + " to " +
                                     volume(Volume::from_litres(likely->high)) + " since " +
                                     iso_text(day_of(likely->since, m_here.zone)) +
                                     ". Look for a leak or a pull nobody booked; --cause unknown says that it did not "
                                     "evaporate.");
    }

    const TakeStock& m_act;
    Here& m_here;
    const VesselState& m_vessel;
    const engine::LiquidState& m_state;
    const engine::Stock& m_stock;
    Volume m_solids;
};

Result<Settle> count_run(const TakeStock& act, const Way& way, const RunState& run, Here& here) {
    if (way.by != FoundBy::count)
        return fail(ErrorKind::bad_input, word(way.by),
                    "Bottles are counted: --count says how many of " + run.as.run + " are there.");
    if (!act.cause.empty() || !act.within.empty())
        return fail(ErrorKind::bad_input, "count", "A count of bottles has neither --cause nor --within.");
    Settle body;
    body.subject = run.key;
    body.found_by = FoundBy::count;
    body.cause = LossCause::unknown;
    TRY(body.count, parse_count("count", *way.text, 0, 1'000'000));
    if (body.count < run.left) body.missing_count = run.left - body.count;
    if (body.count > run.left) body.surplus_count = body.count - run.left;
    std::string said = std::to_string(body.count) + " of " + run.as.run + " are there; the book said " +
                       std::to_string(run.left) + ": ";
    if (body.missing_count > 0)
        said += std::to_string(body.missing_count) + " missing, booked as gone.";
    else if (body.surplus_count > 0)
        said += std::to_string(body.surplus_count) + " more, booked as found.";
    else
        said += "the book was right.";
    here.remarks.push_back(said);
    return body;
}

// --- calibration ---------------------------------------------------------------------------------

struct SignedAmount {
    Decimal value;
    std::string unit;
};

// "-0.06", "+0,002 SG", "0.5 C".
Result<SignedAmount> signed_amount(const std::string& text) {
    std::string number;
    std::size_t i = 0;
    for (; i < text.size(); ++i) {
        const char c = text[i];
        if ((c >= '0' && c <= '9') || c == '.' || (c == '-' && number.empty()))
            number += c;
        else if (c == ',')
            number += '.';
        else if (c != '+' || !number.empty())
            break;
    }
    const auto unit_at = text.find_first_not_of(' ', i);
    const auto value = Decimal::parse(number);
    if (!value)
        return fail(ErrorKind::bad_input, "offset",
                    "\"" + text + "\" is no offset. Write what is to be added to a reading, such as -0.06 or 0.5 C.");
    return SignedAmount{*value, unit_at == std::string::npos ? std::string{} : text.substr(unit_at)};
}

// Units an offset can be in, the first where none is said; and what is too much to be one, in the first.
struct OffsetRule {
    Quantity quantity;
    std::vector<std::string> units;
    bool bare = true;
    double most = 0.0;
};

const OffsetRule& rule_of(Quantity quantity) {
    static const std::vector<OffsetRule> k_rules = {{Quantity::gravity, {"SG", "P", "Brix"}, true, 0.05},
                                                    {Quantity::ph, {"pH"}, true, 2.0},
                                                    {Quantity::ta, {"g/L"}, true, 5.0},
                                                    {Quantity::temperature, {"C", "F"}, false, 15.0},
                                                    {Quantity::dissolved_co2, {"vol", "g/L"}, false, 3.0},
                                                    {Quantity::weight, {"g", "kg"}, false, 50'000.0}};
    return *std::find_if(k_rules.begin(), k_rules.end(),
                         [quantity](const OffsetRule& rule) { return rule.quantity == quantity; });
}

Result<void> offset_from(const std::string& text, Calibrate& body) {
    TRY(const SignedAmount amount, signed_amount(text));
    const OffsetRule& rule = rule_of(body.quantity);
    std::string unit = amount.unit;
    if (unit == "°C" || unit == "°F" || unit == "°P") unit = unit.substr(2);
    if (unit.empty() && rule.bare) unit = rule.units.front();
    if (std::find(rule.units.begin(), rule.units.end(), unit) == rule.units.end()) {
        std::string all;
        for (const std::string& one : rule.units) all += (all.empty() ? "" : ", ") + one;
        return fail(
            ErrorKind::bad_input, "offset",
            (unit.empty() ? text + " of what?" : "\"" + unit + "\" is no unit of " + word(body.quantity) + ".") +
                " An offset of " + word(body.quantity) + " is in: " + all + ".");
    }
    body.offset = unit == "kg" ? Decimal::from_double(amount.value.value() * 1000.0, 3) : amount.value;
    body.unit = unit == "kg" ? "g" : unit;
    return {};
}

// What it reads of a thing that is known.
Result<void> offset_between(const std::string& reads, const std::string& truth, Calibrate& body) {
    const auto between = [&body](const Decimal& read, const Decimal& real, const std::string& unit) {
        body.offset = Decimal::from_double(real.value() - read.value(), std::max(read.places(), real.places()));
        body.unit = unit;
    };
    switch (body.quantity) {
        case Quantity::gravity: {
            TRY(const GravityText read, parse_gravity("reads", reads));
            TRY(const GravityText real, parse_gravity("true", truth));
            if (read.unit != real.unit)
                return fail(ErrorKind::bad_input, "true",
                            reads + " and " + truth + " are in two units; write both in one.");
            between(read.value, real.value, read.unit);
            return {};
        }
        case Quantity::ph: {
            TRY(const Decimal read, parse_number("reads", reads, 0, 14));
            TRY(const Decimal real, parse_number("true", truth, 0, 14));
            between(read, real, "pH");
            return {};
        }
        case Quantity::ta: {
            TRY(const Decimal read, parse_grams_per_litre("reads", reads));
            TRY(const Decimal real, parse_grams_per_litre("true", truth));
            between(read, real, "g/L");
            return {};
        }
        case Quantity::temperature: {
            TRY(const Temperature read, parse_temperature("reads", reads));
            TRY(const Temperature real, parse_temperature("true", truth));
            between(Decimal::from_double(read.in_celsius(), 2), Decimal::from_double(real.in_celsius(), 2), "C");
            return {};
        }
        case Quantity::dissolved_co2: {
            TRY(const CarbonationText read, parse_carbonation("reads", reads));
            TRY(const CarbonationText real, parse_carbonation("true", truth));
            if (read.unit != real.unit)
                return fail(ErrorKind::bad_input, "true",
                            reads + " and " + truth + " are in two units; write both in one.");
            between(read.value, real.value, read.unit);
            return {};
        }
        case Quantity::weight:
            break;
    }
    TRY(const Mass read, parse_mass("reads", reads));
    TRY(const Mass real, parse_mass("true", truth));
    between(Decimal{read.mg(), 3}, Decimal{real.mg(), 3}, "g");
    return {};
}

// Names of instruments in the readings there are.
void tell_of_instrument(const Calibrate& body, Here& here) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < here.chains.size(); ++i) {
        const Entry& entry = here.chains.entry(static_cast<int>(i));
        const auto* reading = std::get_if<Reading>(&entry.body);
        const auto* logged = std::get_if<LoggerFile>(&entry.body);
        const std::string name = reading != nullptr ? reading->instrument : logged != nullptr ? logged->instrument : "";
        if (name == body.instrument) return;
        if (!name.empty() && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    std::string said = "No reading names \"" + body.instrument + "\" as its instrument yet";
    std::string near;
    for (const std::string& name : nearest_names(body.instrument, names, 3)) near += (near.empty() ? "" : ", ") + name;
    here.remarks.push_back(said + (near.empty() ? "." : "; there is: " + near + "."));
}

}  // namespace

Result<Gauge> gauge_from(const RegisterVessel& act, const VesselJoins& vessel, Gallons gallons) {
    Gauge gauge;
    if (!act.tare.empty()) {
        TRY(gauge.tare, positive_mass("tare", act.tare));
    }
    if (!act.inner_height.empty()) {
        TRY(gauge.inner_height, positive_length("inner-height", act.inner_height));
    }
    if (!act.head_diameter.empty()) {
        TRY(gauge.head_diameter, positive_length("head-diameter", act.head_diameter));
    }
    TRY(gauge.dips, marks_from(act.dip_marks, vessel, gallons));
    if (!act.shape.empty()) {
        TRY(gauge.shape, one_word<VesselShape>("shape", act.shape, "upright, lying, table"));
    } else if (!gauge.dips.empty()) {
        gauge.shape = VesselShape::table;
    } else if (!act.head_diameter.empty()) {
        gauge.shape = VesselShape::lying;
    }
    const bool table = gauge.shape == VesselShape::table;
    if (table != !gauge.dips.empty())
        return fail(ErrorKind::bad_input, "dip-mark",
                    table ? "A dip table wants its marks: --dip-mark \"10 cm=8 L\" for each."
                          : "Marks of a dip stick and --shape " + act.shape + ": say one or the other.");
    if (gauge.head_diameter > Length{} && gauge.shape != VesselShape::lying)
        return fail(ErrorKind::bad_input, "head-diameter", "Only a lying barrel is reckoned by its heads.");
    if (gauge.inner_height == Length{}) {
        if (gauge.shape && !table)
            return fail(ErrorKind::bad_input, "inner-height",
                        std::string("How high is ") + vessel.name +
                            " inside? Say --inner-height 42 cm; of a lying "
                            "barrel it is the bilge diameter.");
        return gauge;
    }
    if (!gauge.shape)
        return fail(ErrorKind::bad_input, "shape",
                    "How is " + vessel.name + " shaped? Say --shape upright or lying beside --inner-height.");
    if (gauge.shape == VesselShape::lying && gauge.head_diameter == Length{}) gauge.head_diameter = gauge.inner_height;
    if (gauge.head_diameter > gauge.inner_height)
        return fail(ErrorKind::bad_input, "head-diameter",
                    act.head_diameter + " at the heads is more than " + act.inner_height +
                        " at the bilge, which is the widest place of a barrel.");
    if (table && gauge.dips.back().depth > gauge.inner_height)
        return fail(ErrorKind::bad_input, "dip-mark",
                    text_of(gauge.dips.back().depth) + " is deeper than " + vessel.name + " is high inside, " +
                        text_of(gauge.inner_height) + ".");
    return gauge;
}

Result<Settle> body_of(const TakeStock& act, Here& here) {
    TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
    const std::vector<Way> ways = ways_of(act);
    if (ways.size() != 1)
        return fail(
            ErrorKind::bad_input, "settle",
            (ways.empty() ? "How was it found? Say --" : "One way at a time: --") +
                std::string("dip 31.5 cm, --ullage 8 cm, --weight 61.2 kg, --volume 52 L, --full, or --count 22 "
                            "for bottles."));
    if (holder.run >= 0) return count_run(act, ways.front(), here.cellar.runs[at_index(holder.run)], here);
    if (ways.front().by == FoundBy::count)
        return fail(ErrorKind::bad_input, "count",
                    "Only bottles of a run are counted; " + act.subject + " is a vessel.");
    return VesselStock{act, holder.vessel, here}.settle(ways.front());
}

Result<Calibrate> body_of(const CalibrateInstrument& act, Here& here) {
    Calibrate body;
    if (act.instrument.empty())
        return fail(ErrorKind::bad_input, "instrument", "Which instrument? Name it as readings do with --instrument.");
    body.instrument = act.instrument;
    TRY(body.quantity, one_word<Quantity>("quantity", act.quantity == "co2" ? "dissolved_co2" : act.quantity,
                                          "gravity, ph, ta, temperature, co2, weight"));
    const bool between = !act.reads.empty() || !act.truth.empty();
    if (between == !act.offset.empty() || (between && (act.reads.empty() || act.truth.empty())))
        return fail(ErrorKind::bad_input, "offset",
                    "Say what is to be added to a reading, --offset -0.06, or what it reads and what is true, --reads "
                    "4.07 --true 4.01.");
    if (between) {
        TRY_VOID(offset_between(act.reads, act.truth, body));
    } else {
        TRY_VOID(offset_from(act.offset, body));
    }
    const OffsetRule& rule = rule_of(body.quantity);
    // Extract, Fahrenheit and g/L of gas are coarser than the unit the limit is in.
    const double most = body.unit == rule.units.front()          ? rule.most
                        : body.quantity == Quantity::gravity     ? rule.most * 250.0
                        : body.quantity == Quantity::temperature ? rule.most * 1.8
                                                                 : rule.most * 2.0;
    if (std::fabs(body.offset.value()) > most)
        return fail(ErrorKind::bad_input, "offset",
                    body.offset.text() + " " + body.unit +
                        " is more than an instrument is off by before it is thrown "
                        "away: at most " +
                        number_text(most, most < 1 ? 2 : 0) + " " + body.unit + " either way.");
    tell_of_instrument(body, here);
    return body;
}

}  // namespace undercroft::app
