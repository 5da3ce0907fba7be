#include "app/blend_trials.hpp"

#include <algorithm>
#include <cmath>

#include "app/bodies.hpp"
#include "base/letters.hpp"
#include "engine/blend/liking.hpp"
#include "engine/blend/trials.hpp"

namespace undercroft::app {
namespace {

namespace blend = engine::blend;

constexpr double k_usual_glass_ml = 100.0;
constexpr double k_measured_ml = 1.0;    // in a glass
constexpr double k_scaled_step = 10.0;   // mL, when litres are measured out
constexpr double k_per_cents_off = 0.5;  // of 100, by rounding of what is typed

// At commas that are no decimal signs.
std::vector<std::string> listed_parts(const std::string& text) {
    const auto digit = [&text](std::size_t at) { return at < text.size() && text[at] >= '0' && text[at] <= '9'; };
    std::vector<std::string> parts;
    std::size_t from = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        if (i < text.size() && (text[i] != ',' || (i > 0 && digit(i - 1) && digit(i + 1)))) continue;
        parts.push_back(trimmed(text.substr(from, i - from)));
        from = i + 1;
    }
    return parts;
}

class Tasting {
public:
    Tasting(const std::vector<TrialStock>& stocks, const std::vector<TypedGlass>& glasses, const TrialsRequest& request,
            Gallons gallons)
        : m_stocks(stocks), m_glasses(glasses), m_request(request), m_gallons(gallons) {}

    Result<TrialsView> told() {
        TRY_VOID(read());
        TRY(const blend::LikingAnswer answer, blend::next_glasses(m_wish));
        show_tried(answer);
        show_next(answer);
        TRY_VOID(scale_up(answer));
        say_words(answer);
        add_trial_cautions();
        return std::move(m_view);
    }

private:
    Result<std::size_t> stock_named(std::string_view field, const std::string& name) const {
        for (std::size_t i = 0; i < m_stocks.size(); ++i)
            if (lower(m_stocks[i].name) == lower(name)) return i;
        // "Amber" of The Amber, where it is the only one.
        const auto has_word = [&name](const TrialStock& one) {
            return (" " + lower(one.name) + " ").find(" " + lower(name) + " ") != std::string::npos;
        };
        if (std::count_if(m_stocks.begin(), m_stocks.end(), has_word) == 1)
            return static_cast<std::size_t>(std::find_if(m_stocks.begin(), m_stocks.end(), has_word) -
                                            m_stocks.begin());
        std::string all;
        for (const TrialStock& one : m_stocks) all += (all.empty() ? "" : ", ") + one.name;
        return fail(ErrorKind::bad_input, std::string(field),
                    "\"" + name.substr(0, 60) + "\" is none of the stocks of these glasses.", {{"stocks", all}});
    }

    Result<double> positive_litres(const char* field, const std::string& text) const {
        TRY(const Volume volume, parse_volume(field, text, m_gallons));
        if (!(volume.in_litres() > 0.0))
            return fail(ErrorKind::bad_input, field, "\"" + text.substr(0, 40) + "\" is no volume above 0.");
        return volume.in_litres();
    }

    // Shares of the glass: of millilitres as poured, or of per cents that add up.
    Result<std::vector<double>> shares_of(const TypedGlass& glass, std::size_t number) const {
        std::vector<double> shares(m_stocks.size(), 0.0);
        double sum = 0.0;
        std::size_t per_cents = 0;
        for (const TypedPart& part : glass.parts) {
            TRY(const std::size_t stock, stock_named("liked", part.name));
            double amount = 0.0;
            if (part.amount.ends_with('%')) {
                TRY(amount, parse_share("liked", part.amount));
                ++per_cents;
            } else {
                TRY(amount, positive_litres("liked", part.amount));
            }
            shares[stock] += amount;
            sum += amount;
        }
        const std::string name = "Glass " + std::to_string(number);
        if (per_cents != 0 && per_cents != glass.parts.size())
            return fail(ErrorKind::bad_input, "liked",
                        name + " mixes per cents and volumes: tell every part of it one way.");
        if (per_cents != 0 && std::abs(sum - 1.0) > k_per_cents_off / 100.0)
            return fail(ErrorKind::bad_input, "liked",
                        name + " adds up to " + number_text(100.0 * sum, 1) + " %: a whole glass is 100 %.");
        for (double& share : shares) share /= sum;
        return shares;
    }

    Result<void> read_bounds(const char* field, const std::vector<std::string>& texts, std::vector<double>& bounds,
                             double otherwise) const {
        bounds.assign(m_stocks.size(), otherwise);
        for (const std::string& text : texts) {
            TRY(const TypedPart part, read_part(field, text));
            TRY(const std::size_t stock, stock_named(field, part.name));
            TRY(bounds[stock], parse_share(field, part.amount));
        }
        return {};
    }

    Result<void> read_available() {
        for (const TrialStock& stock : m_stocks) m_available.push_back(stock.litres);
        for (const std::string& text : m_request.keep) {
            TRY(const TypedPart part, read_part("keep", text));
            TRY(const std::size_t stock, stock_named("keep", part.name));
            TRY(const double kept, positive_litres("keep", part.amount));
            m_available[stock] = std::max(0.0, m_available[stock] - kept);
        }
        if (m_request.volume.empty()) {
            if (!m_request.into.empty() || !m_request.choose.empty())
                return fail(ErrorKind::bad_input, "volume",
                            "How much shall be made? Say --volume 20L beside --into and --choose.");
            return {};
        }
        TRY(m_volume, positive_litres("volume", m_request.volume));
        double all = 0.0;
        for (const double litres : m_available) all += litres;
        if (all < m_volume - 1e-9)
            return fail(ErrorKind::impossible, "volume",
                        number_text(m_volume, 1) + " L are more than the " + number_text(all, 1) +
                            " L there are of these stocks.");
        for (std::size_t i = 0; i < m_stocks.size(); ++i)
            m_wish.most[i] = std::min(m_wish.most[i], m_available[i] / m_volume);
        return {};
    }

    Result<void> read() {
        m_wish.stocks = m_stocks.size();
        for (std::size_t g = 0; g < m_glasses.size(); ++g) {
            TRY(std::vector<double> shares, shares_of(m_glasses[g], g + 1));
            m_wish.trials.push_back({std::move(shares), m_glasses[g].liking});
        }
        TRY_VOID(read_bounds("least", m_request.least, m_wish.least, 0.0));
        TRY_VOID(read_bounds("most", m_request.most, m_wish.most, 1.0));
        TRY_VOID(read_available());
        if (!m_request.doubt.empty()) {
            TRY(const Decimal doubt, parse_number("doubt", m_request.doubt, 0.1, 3.0));
            m_wish.doubt = doubt.value();
        }
        if (!m_request.step.empty()) {
            TRY(m_wish.step, parse_share("step", m_request.step));
        }
        if (!m_request.next.empty()) {
            TRY(const int next, parse_count("next", m_request.next, 2, 4));
            m_wish.next = static_cast<std::size_t>(next);
        }
        if (!m_request.apart.empty()) {
            TRY(m_wish.apart, parse_share("apart", m_request.apart));
        }
        if (!m_request.glass.empty()) {
            TRY(const double glass, positive_litres("glass", m_request.glass));
            m_glass_ml = 1000.0 * glass;
        }
        if (m_glass_ml < 20.0 || m_glass_ml > 500.0)
            return fail(ErrorKind::bad_input, "glass", "A tasting glass holds 20 to 500 mL.");
        m_seed = m_glasses.size() + 1;
        if (!m_request.seed.empty()) {
            TRY(const Decimal seed, parse_number("seed", m_request.seed, 0.0, 1e9));
            m_seed = static_cast<std::uint64_t>(seed.value());
        }
        return {};
    }

    [[nodiscard]] std::vector<TrialsShare> named_shares(const std::vector<double>& shares) const {
        std::vector<TrialsShare> named;
        for (std::size_t i = 0; i < shares.size(); ++i)
            if (shares[i] > 1e-9) named.push_back({m_stocks[i].name, shares[i]});
        return named;
    }

    void show_tried(const blend::LikingAnswer& answer) {
        for (std::size_t t = 0; t < m_wish.trials.size(); ++t) {
            const blend::Liked liked = answer.surface.at(m_wish.trials[t].shares);
            m_view.tried.push_back({static_cast<int>(t) + 1, named_shares(m_wish.trials[t].shares),
                                    m_wish.trials[t].liking, liked.mean, liked.sd});
        }
        m_view.best = static_cast<int>(answer.best.trial) + 1;
        m_view.chance = answer.best.chance;
        m_view.noise = answer.surface.noise();
        m_view.repeats = answer.surface.repeats();
        m_view.step = answer.step;
        m_view.apart = m_wish.apart;
        m_view.gain = answer.gain;
        m_view.enough = answer.enough;
    }

    void show_next(const blend::LikingAnswer& answer) {
        const std::vector<std::string> codes = blend::blind_codes(answer.next.size(), m_seed);
        for (std::size_t n = 0; n < answer.next.size(); ++n) {
            const blend::NextGlass& glass = answer.next[n];
            NextTrial shown;
            shown.code = codes[n];
            shown.parts = named_shares(glass.shares);
            for (const blend::Pour& pour : blend::pours_of(glass.shares, m_glass_ml, k_measured_ml))
                shown.pours.emplace_back(m_stocks[pour.stock].name, pour.ml);
            shown.mean = glass.expected.mean;
            shown.sd = glass.expected.sd;
            shown.gain = glass.gain;
            shown.again = glass.again;
            m_view.next.push_back(std::move(shown));
        }
        std::sort(m_view.next.begin(), m_view.next.end(),
                  [](const NextTrial& a, const NextTrial& b) { return a.code < b.code; });
    }

    // What of the glass there is too little of; empty: it can be made.
    [[nodiscard]] std::string short_of(const std::vector<double>& shares) const {
        for (std::size_t i = 0; i < shares.size(); ++i)
            if (shares[i] * m_volume > m_available[i] + 1e-6)
                return number_text(shares[i] * m_volume, 1) + " L of " + m_stocks[i].name + ", of which " +
                       number_text(m_available[i], 1) + " L may be drawn";
        return "";
    }

    Result<void> scale_up(const blend::LikingAnswer& answer) {
        if (m_request.volume.empty()) return {};
        std::size_t chosen = answer.best.trial;
        if (!m_request.choose.empty()) {
            TRY(const int number, parse_count("choose", m_request.choose, 1, static_cast<int>(m_wish.trials.size())));
            chosen = static_cast<std::size_t>(number - 1);
        }
        const std::vector<double>& shares = m_wish.trials[chosen].shares;
        const std::string lacking = short_of(shares);
        if (!lacking.empty())
            return fail(
                ErrorKind::impossible, "volume",
                number_text(m_volume, 1) + " L of glass " + std::to_string(chosen + 1) + " need " + lacking + ".");
        m_view.chosen = static_cast<int>(chosen) + 1;
        for (const blend::Pour& pour : blend::pours_of(shares, 1000.0 * m_volume, k_scaled_step)) {
            const double litres = std::min(pour.ml / 1000.0, m_available[pour.stock]);
            m_view.parts.push_back({m_stocks[pour.stock].name, litres, shares[pour.stock]});
        }
        std::stable_sort(m_view.parts.begin(), m_view.parts.end(),
                         [](const BlendPart& a, const BlendPart& b) { return a.litres > b.litres; });
        if (!m_request.into.empty()) {
            DraftedBlend drafted = drafted_blend(m_request.into, m_view.parts);
            m_view.drafted = std::move(drafted.sitting);
            m_view.command = std::move(drafted.command);
        }
        return {};
    }

    void say_words(const blend::LikingAnswer& answer) {
        const std::string noise = number_text(m_view.noise, 1);
        const std::string gain = number_text(m_view.gain, m_view.gain < 0.05 ? 2 : 1);
        m_view.words =
            "Glass " + std::to_string(m_view.best) + " is the best so far: " + number_text(answer.best.liked.mean, 1) +
            " ± " + number_text(answer.best.liked.sd, 1) + " of 10 by all " + std::to_string(m_view.tried.size()) +
            " glasses; that nothing " + percent_text(m_view.apart, 0) +
            " of a glass away from it is liked more has a chance of " + percent_text(m_view.chance, 0) + ". ";
        if (!answer.best.possible) m_view.words += "It lies outside the bounds, as every glass does. ";
        m_view.words +=
            m_view.enough
                ? "Taste no more: the next glass is expected to gain " + gain + " of " + noise + " noise."
                : "The next glass is expected to gain " + gain + " points; one glass is doubted by " + noise + ".";
        if (m_view.repeats > 0)
            m_view.words += " That doubt is told by " + std::to_string(m_view.repeats) +
                            (m_view.repeats == 1 ? " repeat" : " repeats") + " and the " +
                            number_text(m_wish.doubt, 1) + " assumed.";
        if (answer.next.size() < m_wish.next)
            m_view.words += " The bounds leave no room for more glasses that far apart.";
    }

    void add_trial_cautions() {
        m_view.cautions.push_back(
            {"trials.palate",
             "A palate tires: few glasses, water between them, codes that tell nothing, and one of "
             "them poured twice, which shows what a point of liking is worth."});
        if (m_view.chosen == 0) return;
        m_view.cautions.push_back({"blend.gas",
                                   "A live culture that meets what another beer left makes gas: nothing of it is "
                                   "packaged before the gas check of the blend itself agrees. Bottles can burst."});
    }

    const std::vector<TrialStock>& m_stocks;
    const std::vector<TypedGlass>& m_glasses;
    const TrialsRequest& m_request;
    Gallons m_gallons;
    blend::LikingWish m_wish;
    std::vector<double> m_available;  // litres
    double m_volume = 0.0;            // litres
    double m_glass_ml = k_usual_glass_ml;
    std::uint64_t m_seed = 1;
    TrialsView m_view;
};

}  // namespace

Result<TypedPart> read_part(std::string_view field, const std::string& text) {
    std::vector<std::string> words;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t until = std::min(text.find(' ', from), text.size());
        if (until > from) words.push_back(text.substr(from, until - from));
        from = until + 1;
    }
    const auto joined = [&words](std::size_t from, std::size_t until) {
        std::string all;
        for (std::size_t i = from; i < until; ++i) all += (all.empty() ? "" : " ") + words[i];
        return all;
    };
    const auto starts_as_number = [](const std::string& word) { return word.front() >= '0' && word.front() <= '9'; };
    const auto has_unit = [](const std::string& word) { return word.back() < '0' || word.back() > '9'; };
    const std::size_t count = words.size();
    TypedPart part;
    if (count >= 2 && starts_as_number(words[0]) && has_unit(words[0]))
        part = {words[0], joined(1, count)};
    else if (count >= 3 && starts_as_number(words[0]))
        part = {joined(0, 2), joined(2, count)};
    else if (count >= 2 && starts_as_number(words[count - 1]) && has_unit(words[count - 1]))
        part = {words[count - 1], joined(0, count - 1)};
    else if (count >= 3 && starts_as_number(words[count - 2]))
        part = {joined(count - 2, count), joined(0, count - 2)};
    else
        return fail(ErrorKind::bad_input, std::string(field),
                    "\"" + text.substr(0, 60) + "\" is no amount of a stock; say \"40 mL Sharp\" or \"40 % Sharp\".");
    return part;
}

Result<TypedGlass> read_glass(const std::string& text) {
    const std::size_t colon = text.rfind(':');
    if (colon == std::string::npos)
        return fail(ErrorKind::bad_input, "liked",
                    "\"" + text.substr(0, 80) +
                        "\" does not say how it was liked; say \"40 mL Sharp, 60 mL Soft: 6.5\", of 10.");
    TypedGlass glass;
    TRY(const Decimal liking, parse_number("liked", trimmed(text.substr(colon + 1)), 0.0, blend::k_most_liking));
    glass.liking = liking.value();
    for (const std::string& part : listed_parts(text.substr(0, colon))) {
        TRY(TypedPart typed, read_part("liked", part));
        glass.parts.push_back(std::move(typed));
    }
    return glass;
}

Result<TrialsView> trials_of(const std::vector<TrialStock>& stocks, const std::vector<TypedGlass>& glasses,
                             const TrialsRequest& request, Gallons gallons) {
    return Tasting(stocks, glasses, request, gallons).told();
}

}  // namespace undercroft::app
