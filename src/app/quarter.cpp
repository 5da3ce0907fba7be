#include "app/quarter.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

#include "app/blend_stocks.hpp"
#include "app/bodies.hpp"
#include "app/faults.hpp"
#include "app/names.hpp"
#include "base/letters.hpp"
#include "engine/blend/chance.hpp"
#include "engine/blend/quarter.hpp"

namespace undercroft::app {
namespace {

namespace blend = engine::blend;

int places_of_product(const std::string& figure) {
    return figure == "gravity" ? 4 : figure == blend::k_ph ? 2 : 1;
}

std::string range_words(const blend::Wish& wish) {
    const auto text = [&](double value) { return number_text(value, places_of_product(wish.figure)); };
    if (wish.range.low && wish.range.high) return text(*wish.range.low) + " to " + text(*wish.range.high);
    return wish.range.low ? "at least " + text(*wish.range.low) : "at most " + text(wish.range.high.value_or(0.0));
}

std::vector<std::string> cut_at_commas(const std::string& text) {
    std::vector<std::string> parts;
    std::istringstream in(text);
    for (std::string part; std::getline(in, part, ',');)
        if (!trimmed(part).empty()) parts.push_back(trimmed(part));
    return parts;
}

std::string litres_typed(double litres) {
    // Three decimals could be read as thousands.
    const bool fine = std::abs(litres * 100.0 - std::round(litres * 100.0)) > 1e-6;
    return number_text(litres, fine ? 4 : 2) + " L";
}

class QuarterPlanning {
public:
    QuarterPlanning(const Seen& seen, const QuarterRequest& request, Gallons gallons)
        : m_seen(seen), m_request(request), m_gallons(gallons) {}

    Result<QuarterView> look(const std::vector<engine::HolderRef>& holders) {
        TRY_VOID(read_products());
        TRY_VOID(take_stocks(holders));
        TRY_VOID(read_keeps());
        TRY_VOID(read_refills());
        blend::Asking asking;
        if (!m_request.seconds.empty()) {
            TRY(const Decimal seconds, parse_number("seconds", m_request.seconds, 0.1, 600.0));
            asking.seconds = seconds.value();
        }
        m_quarter.problem.step = 0.1;
        if (!m_request.step.empty()) {
            TRY(const Volume step, parse_volume("step", m_request.step, m_gallons));
            m_quarter.problem.step = step.in_litres();
        }
        if (!m_request.most_share.empty()) {
            std::string number = m_request.most_share;
            const bool percent = !number.empty() && number.back() == '%';
            if (percent) number = trimmed(number.substr(0, number.size() - 1));
            TRY(const Decimal share, parse_number("most-share", number, 0.0, 100.0));
            m_quarter.most_share = percent || share.value() > 1.0 ? share.value() / 100.0 : share.value();
        }
        TRY(const blend::QuarterPlan plan, blend::plan_quarter(m_quarter, asking));
        TRY_VOID(show(plan));
        return std::move(m_view);
    }

private:
    Result<void> read_products() {
        if (m_request.products.empty())
            return fail(ErrorKind::bad_input, "product",
                        "What is to be made? Say --product \"Autumn, 20 L, ph 3.4 to 3.5, sour 4 to 6, into Keg 2\".");
        for (const std::string& text : m_request.products) {
            const std::vector<std::string> parts = cut_at_commas(text);
            if (parts.size() < 2)
                return fail(
                    ErrorKind::bad_input, "product",
                    "\"" + text.substr(0, 60) +
                        "\" is no product; say a name, a volume, and what it shall be: \"Autumn, 20 L, ph 3.4 to "
                        "3.5\".");
            blend::Blend product;
            product.name = parts[0];
            TRY(const Volume volume, parse_volume("product", parts[1], m_gallons));
            product.litres = volume.in_litres();
            std::string into;
            for (std::size_t i = 2; i < parts.size(); ++i) {
                if (lower(parts[i]).starts_with("into ")) {
                    TRY(const int vessel, find_vessel(m_seen.cellar, "product", trimmed(parts[i].substr(5))));
                    into = m_seen.cellar.vessels[at_index(vessel)].as.name;
                    continue;
                }
                const bool must = lower(parts[i]).starts_with("must ");
                TRY(const blend::Wish wish,
                    read_wish(must ? trimmed(parts[i].substr(5)) : parts[i], must, m_seen.tables));
                product.wishes.push_back(wish);
            }
            if (std::any_of(m_quarter.problem.blends.begin(), m_quarter.problem.blends.end(),
                            [&](const blend::Blend& one) { return one.name == product.name; }))
                return fail(ErrorKind::bad_input, "product", product.name + " stands there twice.");
            m_quarter.problem.blends.push_back(std::move(product));
            m_into.push_back(std::move(into));
        }
        return {};
    }

    [[nodiscard]] std::string why_left_out(const blend::Stock& stock, engine::HolderRef holder) const {
        for (const FaultMeaning& fault :
             faults_of(m_seen.cellar, m_seen.tables, m_seen.telling, key_of(m_seen.cellar, holder), m_seen.when))
            if (fault.blocks_packaging || fault.blocks_pull || fault.unsafe) return fault.name + " stands";
        std::string lacks;
        for (const blend::Blend& product : m_quarter.problem.blends)
            for (const blend::Wish& wish : product.wishes) {
                const bool by_acids = wish.figure == blend::k_ph || wish.figure == blend::k_undissociated;
                if (by_acids ? stock.acids.has_value() : stock.figures.contains(wish.figure)) continue;
                if (lacks.find(wish.figure) == std::string::npos) lacks += (lacks.empty() ? "" : ", ") + wish.figure;
            }
        return lacks.empty() ? "" : "no " + lacks + " known";
    }

    Result<void> take_stocks(const std::vector<engine::HolderRef>& holders) {
        for (const engine::HolderRef holder : holders) {
            TRY(KnownStock known, stock_of(m_seen, holder, {}));
            const bool target = std::find(m_into.begin(), m_into.end(), known.stock.name) != m_into.end();
            if (const std::string why = why_left_out(known.stock, holder); !why.empty()) {
                m_view.left_out.push_back(known.stock.name + ": " + why);
                continue;
            }
            if (target && holder.vessel >= 0) {
                m_view.left_out.push_back(known.stock.name + ": a product goes into it");
                continue;
            }
            if (holder.vessel >= 0 &&
                m_seen.cellar.vessels[at_index(holder.vessel)].as.role == ledger::VesselRole::solera)
                m_quarter.soleras.push_back(known.stock.name);
            m_quarter.problem.stocks.push_back(std::move(known.stock));
        }
        if (m_quarter.problem.stocks.empty()) {
            Error error{ErrorKind::bad_input, "stocks", "None of the stocks can be counted with.", {}, ""};
            for (const std::string& one : m_view.left_out) error.facts.push_back({"left out", one});
            return tl::unexpected(std::move(error));
        }
        return {};
    }

    [[nodiscard]] Result<std::string> stock_named(const char* field, const std::string& text) const {
        TRY(const engine::HolderRef holder, find_holder(m_seen.cellar, field, text));
        const std::string name = holder.run >= 0 ? m_seen.cellar.runs[at_index(holder.run)].as.run
                                                 : m_seen.cellar.vessels[at_index(holder.vessel)].as.name;
        return name;
    }

    Result<void> read_keeps() {
        for (const std::string& text : m_request.keep) {
            // "Amber 30 L": the volume is the last two words, or the last.
            std::size_t cut = text.find_last_of(' ');
            if (cut != std::string::npos && cut > 0 && !is_digit(text[cut + 1])) cut = text.find_last_of(' ', cut - 1);
            if (cut == std::string::npos)
                return fail(ErrorKind::bad_input, "keep",
                            "\"" + text.substr(0, 60) + "\" wants a stock and a volume: \"Amber 30 L\".");
            TRY(const std::string name, stock_named("keep", trimmed(text.substr(0, cut))));
            TRY(const Volume volume, parse_volume("keep", trimmed(text.substr(cut)), m_gallons));
            for (blend::Stock& stock : m_quarter.problem.stocks)
                if (stock.name == name) stock.keep_back = volume.in_litres();
        }
        return {};
    }

    Result<void> read_refills() {
        for (const std::string& text : m_request.refills) {
            const std::vector<std::string> parts = cut_at_commas(text);
            if (parts.size() != 2)
                return fail(ErrorKind::bad_input, "refill",
                            "\"" + text.substr(0, 60) + "\" wants a name and a volume: \"Spring wort, 60 L\".");
            TRY(const Volume volume, parse_volume("refill", parts[1], m_gallons));
            m_quarter.sources.push_back({parts[0], volume.in_litres()});
        }
        std::vector<std::string> fed;
        for (const std::string& text : m_request.feeds) {
            const auto into = text.find(" into ");
            if (into == std::string::npos)
                return fail(ErrorKind::bad_input, "feed",
                            "\"" + text.substr(0, 60) + "\" says no way; say \"Stair 3 into Stair 2\".");
            const std::string from = trimmed(text.substr(0, into));
            TRY(const std::string to, stock_named("feed", trimmed(text.substr(into + 6))));
            const bool lot = std::any_of(m_quarter.sources.begin(), m_quarter.sources.end(),
                                         [&](const blend::RefillSource& one) { return one.name == from; });
            std::string name = from;
            if (!lot) {
                TRY(name, stock_named("feed", from));
            }
            m_quarter.feeds.push_back({name, to});
            fed.push_back(to);
        }
        // A solera that nothing feeds by name takes any lot.
        for (const std::string& solera : m_quarter.soleras)
            if (std::find(fed.begin(), fed.end(), solera) == fed.end())
                for (const blend::RefillSource& source : m_quarter.sources)
                    m_quarter.feeds.push_back({source.name, solera});
        return {};
    }

    Result<void> show(const blend::QuarterPlan& plan) {
        m_view.proven = plan.proven;
        m_view.cost = plan.cost;
        const blend::Problem& problem = m_quarter.problem;
        std::map<std::string, double> drawn;
        int met = 0;
        for (std::size_t j = 0; j < plan.made.size(); ++j) {
            const blend::Made& made = plan.made[j];
            QuarterProduct product;
            product.name = problem.blends[j].name;
            product.into = m_into[j];
            product.litres = made.litres;
            std::vector<double> litres(problem.stocks.size(), 0.0);
            for (const blend::Part& part : made.parts) {
                const std::string& name = problem.stocks[part.stock].name;
                litres[part.stock] = part.litres;
                product.parts.push_back({name, part.litres, part.litres / made.litres});
                drawn[name] += part.litres;
            }
            TRY(const blend::Chance chance, blend::chance_of(problem, problem.blends[j], litres));
            product.inside = chance.inside;
            for (const blend::Wish& wish : problem.blends[j].wishes) {
                const auto value = made.figures.find(wish.figure);
                if (value == made.figures.end()) continue;
                const bool missed = std::any_of(made.off.begin(), made.off.end(),
                                                [&](const blend::Off& off) { return off.figure == wish.figure; });
                if (missed) product.missed += (product.missed.empty() ? "" : ", ") + wish.figure;
                product.figures.push_back({wish.figure == blend::k_ph ? "pH" : wish.figure, "", range_words(wish),
                                           value->second, chance.sd.at(wish.figure), chance.by_wish.at(wish.figure),
                                           missed});
            }
            met += product.missed.empty() ? 1 : 0;
            m_view.products.push_back(std::move(product));
        }
        double refilled = 0.0;
        for (const blend::Fed& one : plan.fed) {
            const bool lot =
                std::any_of(m_quarter.sources.begin(), m_quarter.sources.end(),
                            [&](const blend::RefillSource& source) { return source.name == one.feed.from; });
            m_view.refills.push_back({one.feed.into, one.feed.from, lot, one.litres});
            if (!lot) drawn[one.feed.from] += one.litres;
            refilled += one.litres;
        }
        for (const std::string& solera : m_quarter.soleras)
            if (drawn[solera] > 0.0) m_view.drawn.emplace_back(solera, drawn[solera]);
        m_view.words = std::to_string(met) + " of " + std::to_string(m_view.products.size()) +
                       (m_view.products.size() == 1 ? " product meets" : " products meet") + " every wish; " +
                       std::to_string(m_view.drawn.size()) +
                       (m_view.drawn.size() == 1 ? " solera is" : " soleras are") +
                       " drawn from and filled again with " + number_text(refilled, 1) + " L. ";
        m_view.words += m_view.proven ? "No other plan of these stocks is nearer to all wishes together."
                                      : "The time was over before it was proven.";
        say_commands();
        m_view.cautions.push_back({"quarter.taste", "Figures do not taste: each product in a glass first, blind."});
        m_view.cautions.push_back(
            {"quarter.gas",
             "A live culture that meets what another beer left makes gas: nothing is packaged before "
             "the gas check of each product agrees."});
        m_view.cautions.push_back(
            {"quarter.same_day",
             "Pull and refill a solera on one day: an empty space of air feeds vinegar. The oldest "
             "first along a chain."});
        return {};
    }

    void say_commands() {
        for (const QuarterProduct& product : m_view.products) {
            if (product.into.empty()) continue;
            std::string line = "undercroft blend \"" + product.into + "\"";
            for (const BlendPart& part : product.parts)
                line += " --from \"" + part.stock + "\" " + litres_typed(part.litres);
            m_view.commands.push_back(std::move(line));
        }
        // Along a chain the last is filled first, out of the one above it; the first of it last, from a lot.
        std::vector<QuarterRefill> rest = m_view.refills;
        std::vector<QuarterRefill> order;
        while (!rest.empty()) {
            auto next = std::find_if(rest.begin(), rest.end(), [&](const QuarterRefill& one) {
                return std::none_of(rest.begin(), rest.end(),
                                    [&](const QuarterRefill& other) { return other.from == one.into; });
            });
            if (next == rest.end()) next = rest.begin();
            order.push_back(*next);
            rest.erase(next);
        }
        m_view.refills = order;
        for (const QuarterRefill& one : order)
            m_view.commands.push_back("undercroft refill \"" + one.into + "\" " + litres_typed(one.litres) +
                                      (one.lot ? " --lot \"" + one.from + "\" --og GRAVITY --gravity GRAVITY"
                                               : " --from \"" + one.from + "\""));
    }

    const Seen& m_seen;
    const QuarterRequest& m_request;
    Gallons m_gallons;
    blend::Quarter m_quarter;
    std::vector<std::string> m_into;
    QuarterView m_view;
};

}  // namespace

Result<QuarterView> quarter_view(const Seen& seen, const std::vector<engine::HolderRef>& holders,
                                 const QuarterRequest& request, Gallons gallons) {
    return QuarterPlanning(seen, request, gallons).look(holders);
}

}  // namespace undercroft::app
