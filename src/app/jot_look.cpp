// Readings and tastings in a jotted line.
#include "app/jot.hpp"
#include "app/jot_words.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

bool is_one_of(const std::string& word, std::initializer_list<std::string_view> list) {
    for (const std::string_view one : list)
        if (word == one) return true;
    return false;
}

Result<bool> put(std::string& field, std::string_view name, std::string value) {
    if (!field.empty())
        return fail(ErrorKind::bad_input, std::string(name),
                    "The " + std::string(name) + " is given twice: " + field + " and " + value + ".");
    field = std::move(value);
    return true;
}

// A number and whatever stands behind it as its unit.
Result<std::string> number_after(JotWords& words, std::string_view name) {
    words.skip();
    words.skip_any({":", "="});
    if (!is_jotted_number(words.word()))
        return fail(ErrorKind::bad_input, std::string(name),
                    "After \"" + std::string(name) + "\" comes a number" +
                        (words.word().empty() ? "." : ", not \"" + words.word() + "\"."));
    return *words.take_amount();
}

// What a number without a unit could be, where no gravity with three decimals is meant.
Failure bare(const std::string& number) {
    const auto gravity = parse_gravity("reading", number);
    const bool whole = number.find_first_of(".,") == std::string::npos;
    if (!gravity && !whole && number.size() < 6) return tl::unexpected(gravity.error());
    return fail(ErrorKind::bad_input, "reading",
                number + " could be a temperature (" + number + " C or " + number + " F), " + number +
                    " \u00B0P or a volume; say " + number + " C, " + number + " P or " + number + " L.");
}

Result<bool> take_number(JotWords& words, TakeReading& reading) {
    const std::string number = words.word();
    const std::string unit = words.lower_word(1);
    // "3.42 pH", but in "1.008 pH 3.42" the first is a gravity.
    if (unit == "ph" && !parse_gravity("gravity", number)) {
        words.skip(2);
        return put(reading.ph, "pH", number);
    }
    // "6.2 g/L TA"
    if (unit == "g/l" && is_one_of(words.lower_word(2), {"ta", "co2"}) && !is_jotted_number(words.word(3))) {
        const bool acid = words.lower_word(2) == "ta";
        words.skip(3);
        return put(acid ? reading.ta : reading.dissolved_co2, acid ? "TA" : "CO2", number + " g/L");
    }
    if (unit == "g/l")
        return fail(
            ErrorKind::bad_input, "reading",
            number + " g/L could be titratable acid or CO2; say TA " + number + " g/L or CO2 " + number + " g/L.");
    const std::string amount = *words.take_amount();
    if (amount == number) {
        if (!parse_gravity("gravity", number)) return bare(number);
        return put(reading.gravity, "gravity", number);
    }
    if (parse_temperature("temperature", amount)) return put(reading.temperature, "temperature", amount);
    if (parse_gravity("gravity", amount)) return put(reading.gravity, "gravity", amount);
    if (parse_carbonation("co2", amount)) return put(reading.dissolved_co2, "CO2", amount);
    if (parse_mass("weight", amount))
        return fail(ErrorKind::bad_input, "reading",
                    amount + " could be the weight of the vessel or something added; say weight " + amount +
                        ", or added " + amount + " of it.");
    if (parse_volume("volume", amount, Gallons::us))
        return fail(
            ErrorKind::bad_input, "reading",
            amount + " could be a sample or a move; say sample " + amount + ", or pulled " + amount + " to a vessel.");
    // It has a unit of these and cannot be: its own reader says why.
    const auto temperature = parse_temperature("temperature", amount);
    const auto gravity = parse_gravity("gravity", amount);
    const bool degrees = is_one_of(unit, {"c", "f", "\u00B0c", "\u00B0f"});
    return tl::unexpected(degrees ? temperature.error() : gravity.error());
}

std::string taster_of(JotWords& words) {
    words.skip();
    return words.take_segment();
}

bool is_score(const std::string& name, const std::string& number) {
    if (name.empty() || !is_jotted_number(number) || is_jotted_number(name)) return false;
    return parse_number("score", number, 0, 10).has_value();
}

}  // namespace

Result<bool> take_measure(JotWords& words, TakeReading& reading) {
    const std::string key = words.lower_word();
    if (is_one_of(key, {"sg", "gravity", "fg"})) {
        TRY(std::string value, number_after(words, "gravity"));
        return put(reading.gravity, "gravity", std::move(value));
    }
    if (key == "ph") {
        TRY(std::string value, number_after(words, "pH"));
        return put(reading.ph, "pH", std::move(value));
    }
    if (is_one_of(key, {"ta", "acid"})) {
        TRY(std::string value, number_after(words, "TA"));
        return put(reading.ta, "TA", std::move(value));
    }
    if (key == "co2") {
        TRY(std::string value, number_after(words, "CO2"));
        return put(reading.dissolved_co2, "CO2", std::move(value));
    }
    if (is_one_of(key, {"temperature", "temp"}) || (key == "at" && is_jotted_number(words.word(1)))) {
        TRY(std::string value, number_after(words, "temperature"));
        return put(reading.temperature, "temperature", std::move(value));
    }
    if (is_one_of(key, {"weight", "weighs"})) {
        TRY(std::string value, number_after(words, "weight"));
        return put(reading.weight, "weight", std::move(value));
    }
    if (key == "sample") {
        TRY(std::string value, number_after(words, "sample"));
        return put(reading.sample, "sample", std::move(value));
    }
    if (!is_jotted_number(key)) return false;
    return take_number(words, reading);
}

Result<void> take_taste(JotWords& words, TasteIt& tasting) {
    const std::string key = words.lower_word();
    if (key == "by" && words.segment().size() > 1) {
        tasting.taster = taster_of(words);
        return {};
    }
    if (is_one_of(key, {"fault", "fault:", "faults"}) && words.segment().size() > 1) {
        words.skip();
        words.skip_any({":"});
        tasting.faults.push_back(words.take_segment());
        return {};
    }
    if (key == "sample" && is_jotted_number(words.word(1))) {
        words.skip();
        TRY_VOID(put(tasting.sample, "sample", *words.take_amount()));
        words.skip_any({","});
        return {};
    }
    // "sour 6 funk 4", "sour=6": pairs all the way, or it is words.
    const auto segment = words.segment();
    bool pairs = segment.size() % 2 == 0 && !segment.empty();
    for (std::size_t i = 0; pairs && i + 1 < segment.size(); i += 2) pairs = is_score(segment[i], segment[i + 1]);
    if (pairs) {
        const std::size_t count = segment.size();
        for (std::size_t i = 0; i < count; i += 2) {
            const std::string name = words.lower_word();
            if (name == "liking")
                TRY_VOID(put(tasting.liking, "liking", words.word(1)));
            else
                tasting.scores.push_back(name + "=" + words.word(1));
            words.skip(2);
        }
        words.skip_any({","});
        return {};
    }
    const bool linked = segment.size() == 1 && segment[0].find('=') != std::string::npos;
    const std::string text = words.take_segment();
    if (linked && is_jotted_number(text.substr(text.find('=') + 1)))
        tasting.scores.push_back(text);
    else if (!text.empty())
        tasting.words += (tasting.words.empty() ? "" : ", ") + text;
    return {};
}

Result<std::vector<Act>> read_look(const std::string& subject, const std::string& text, const JotHabits& habits) {
    JotWords words{text};
    TakeReading reading;
    TasteIt tasting;
    bool seen = false;
    while (!words.at_end()) {
        if (words.skip_any({","})) continue;
        TRY(const bool measured, take_measure(words, reading));
        seen = seen || measured;
        if (!measured) TRY_VOID(take_taste(words, tasting));
    }
    std::vector<Act> acts;
    const bool tasted =
        !tasting.scores.empty() || !tasting.faults.empty() || !tasting.words.empty() || !tasting.liking.empty();
    reading.subject = tasting.subject = subject;
    if (seen) {
        if (reading.sample.empty()) reading.sample = habits.sample;
        acts.emplace_back(std::move(reading));
    }
    if (tasted) {
        if (tasting.taster.empty()) tasting.taster = habits.taster;
        acts.emplace_back(std::move(tasting));
    }
    if (acts.empty())
        return fail(ErrorKind::bad_input, "reading",
                    "Nothing was read there. Write 1.008, pH 3.42, 18 C, TA 6.2 g/L, or what it tastes of.");
    return acts;
}

}  // namespace undercroft::app
