#include "app/calc_read.hpp"

#include <algorithm>

#include "app/bodies.hpp"
#include "base/letters.hpp"
#include "chem/gas.hpp"

namespace undercroft::app {

std::string CalcRequest::one(std::string_view option) const {
    const auto found = options.find(option);
    return found == options.end() || found->second.empty() ? std::string{} : found->second.back();
}

std::vector<std::string> CalcRequest::all(std::string_view option) const {
    const auto found = options.find(option);
    return found == options.end() ? std::vector<std::string>{} : found->second;
}

namespace calc {

namespace {}  // namespace

Failure wants(std::string_view option, std::string_view example) {
    return fail(
        ErrorKind::bad_input, std::string(option),
        std::string(option) + " is needed here, such as " + std::string(option) + " " + std::string(example) + ".");
}

Result<double> grams_per_litre(const CalcRequest& request, std::string_view option, double otherwise) {
    if (!request.has(option)) return otherwise;
    TRY(const Decimal value, parse_grams_per_litre(option, request.one(option)));
    return value.value();
}

Result<double> number(const CalcRequest& request, std::string_view option, double low, double high, double otherwise) {
    if (!request.has(option)) return otherwise;
    TRY(const Decimal value, parse_number(option, request.one(option), low, high));
    return value.value();
}

Result<double> alcohol(const CalcRequest& request, double otherwise) {
    if (!request.has("--alcohol")) return otherwise;
    TRY(const Decimal value, parse_alcohol("--alcohol", request.one("--alcohol")));
    return value.value();
}

Result<Temperature> temperature(const CalcRequest& request, std::string_view option, double otherwise) {
    if (!request.has(option)) return Temperature::from_celsius(otherwise);
    return parse_temperature(option, request.one(option));
}

Result<double> share(const CalcRequest& request, std::string_view option, double otherwise) {
    if (!request.has(option)) return otherwise;
    return parse_share(option, request.one(option));
}

Result<AbsolutePressure> ambient(const CalcRequest& request) {
    TRY(const double metres, number(request, "--altitude", -400.0, 5000.0, 0.0));
    return chem::ambient_pressure_at(metres);
}

Result<double> litres_of(std::string_view field, const std::string& text, Gallons gallons) {
    TRY(const Volume volume, parse_volume(field, text, gallons));
    return volume.in_litres();
}

Result<double> litres(const CalcRequest& request, std::string_view option) {
    if (!request.has(option)) return wants(option, "20 L");
    return litres_of(option, request.one(option), request.gallons);
}

Result<double> sg_of(std::string_view field, const std::string& text) {
    TRY(const Decimal value, gravity_as_sg(field, text));
    return value.value();
}

Result<double> sg(const CalcRequest& request, std::string_view option) {
    if (!request.has(option)) return wants(option, "1.012");
    return sg_of(option, request.one(option));
}

Result<double> co2_g_per_l(const CalcRequest& request, std::string_view option) {
    if (!request.has(option)) return wants(option, "2.4 vol");
    TRY(const CarbonationText text, parse_carbonation(option, request.one(option)));
    return text.unit == "vol" ? chem::co2_g_per_l_of_volumes(text.value.value()) : text.value.value();
}

std::string Part::one(std::string_view word) const {
    const auto found = pairs.find(word);
    return found == pairs.end() ? std::string{} : found->second;
}

// A comma parts, unless digits stand on both sides of it: there it is a decimal comma.
Result<Part> part_of(std::string_view field, const std::string& text, const std::vector<std::string>& known) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    std::vector<std::string> pieces(1);
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool decimal = i > 0 && i + 1 < text.size() && is_digit(text[i - 1]) && is_digit(text[i + 1]);
        if (text[i] == ';' || (text[i] == ',' && !decimal))
            pieces.emplace_back();
        else
            pieces.back() += text[i];
    }
    Part part;
    part.first = trimmed(pieces[0]);
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        const std::string piece = trimmed(pieces[i]);
        const auto blank = piece.find(' ');
        std::string word = piece.substr(0, blank);
        for (char& c : word)
            if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');  // "pH 3.3"
        if (blank == std::string::npos || std::find(known.begin(), known.end(), word) == known.end()) {
            std::string all;
            for (const std::string& one : known) all += (all.empty() ? "" : ", ") + one;
            return fail(ErrorKind::bad_input, std::string(field),
                        "\"" + piece.substr(0, 40) +
                            "\" is not understood; after the first amount come pairs of a word (" + all +
                            ") and an amount, parted by commas.");
        }
        part.pairs[word] = trimmed(piece.substr(blank + 1));
    }
    return part;
}

}  // namespace calc
}  // namespace undercroft::app
