#include "app/blending.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "app/blend_stocks.hpp"
#include "app/bodies.hpp"
#include "base/letters.hpp"
#include "units/amount.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

namespace blend = engine::blend;

constexpr double k_usual_step = 0.1;  // litres
constexpr int k_usual_recipes = 3;

int places_of(const std::string& figure) {
    if (figure == blend::k_ph) return 2;
    if (figure == "gravity") return 4;
    return 1;
}

// What was tasted is told of ten.
std::string unit_of(const std::string& figure) {
    static const std::map<std::string, std::string> k_units = {{blend::k_ph, ""},
                                                               {"gravity", ""},
                                                               {"ta", "g/L"},
                                                               {"alcohol", "% vol"},
                                                               {blend::k_undissociated, "mmol/L"},
                                                               {"extract", "g/L"},
                                                               {"ibu", "IBU"},
                                                               {"colour", "EBC"},
                                                               {"age", "years"},
                                                               {"cost", "a litre"}};
    const auto unit = k_units.find(figure);
    if (unit != k_units.end()) return unit->second;
    return figure.starts_with("share of ") ? "%" : "of 10";
}

std::string named(const std::string& figure) {
    return figure == blend::k_ph ? "pH" : figure == "ta" ? "TA" : figure == "ibu" ? "IBU" : figure;
}

std::string wanted_text(const blend::Wish& wish) {
    const int places = places_of(wish.figure);
    const blend::Range& range = wish.range;
    if (range.low && range.high)
        return *range.low == *range.high ? number_text(*range.low, places)
                                         : number_text(*range.low, places) + " to " + number_text(*range.high, places);
    return range.high ? "at most " + number_text(*range.high, places) : "at least " + number_text(*range.low, places);
}

// "Amber 30 L": a name of the stocks, and what follows it.
struct NamedAmount {
    std::string stock;
    std::string amount;
};
Result<NamedAmount> named_amount(std::string_view field, const std::string& text,
                                 const std::vector<KnownStock>& stocks) {
    const KnownStock* found = nullptr;
    for (const KnownStock& one : stocks) {
        const std::string& name = one.stock.name;
        if (lower(text).starts_with(lower(name)) && (text.size() == name.size() || text[name.size()] == ' ') &&
            (found == nullptr || name.size() > found->stock.name.size()))
            found = &one;
    }
    if (found != nullptr) return NamedAmount{found->stock.name, trimmed(text.substr(found->stock.name.size()))};
    // "Amber" of The Amber, where it is the only one.
    const std::string word = text.substr(0, text.find(' '));
    const auto has_word = [&word](const KnownStock& one) {
        return (" " + lower(one.stock.name) + " ").find(" " + lower(word) + " ") != std::string::npos;
    };
    if (!word.empty() && std::count_if(stocks.begin(), stocks.end(), has_word) == 1)
        return NamedAmount{std::find_if(stocks.begin(), stocks.end(), has_word)->stock.name,
                           trimmed(text.substr(word.size()))};
    std::string all;
    for (const KnownStock& one : stocks) all += (all.empty() ? "" : ", ") + one.stock.name;
    return fail(ErrorKind::bad_input, std::string(field),
                "\"" + text.substr(0, 60) + "\" begins with none of the stocks.", {{"stocks", all}});
}

Result<blend::Aim> aim_of(const std::string& text, bool has_volume) {
    if (text.empty()) return has_volume ? blend::Aim::nearest : blend::Aim::most;
    if (text == "nearest") return blend::Aim::nearest;
    if (text == "most") return blend::Aim::most;
    if (text == "cheapest") return blend::Aim::cheapest;
    if (text == "least-ferment") return blend::Aim::least_ferment;
    return fail(ErrorKind::bad_input, "aim",
                "\"" + text.substr(0, 40) + "\" is no aim; say nearest, most, cheapest or least-ferment.");
}

class Planning {
public:
    Planning(std::vector<KnownStock> stocks, const BlendRequest& request, const tables::Tables& tables, Gallons gallons)
        : m_known(std::move(stocks)), m_request(request), m_tables(tables), m_gallons(gallons) {}

    Result<BlendView> plan() {
        TRY_VOID(read_blend());
        TRY_VOID(read_uses());
        choose_stocks();
        TRY_VOID(check_figures());
        blend::Asking asking;
        TRY(asking.recipes, count("recipes", m_request.recipes, 1, 20, k_usual_recipes));
        if (!m_request.differ.empty()) {
            TRY(asking.differ, share("differ", m_request.differ));
        }
        TRY(const double seconds, number("seconds", m_request.seconds, 0.1, 600.0, asking.seconds));
        asking.seconds = seconds;
        auto found = blend::find_blend(m_problem, asking);
        if (!found) return told_what_was_left_out(std::move(found.error()));
        TRY_VOID(show(*found));
        return std::move(m_view);
    }

private:
    [[nodiscard]] static Result<double> number(const char* field, const std::string& text, double low, double high,
                                               double otherwise) {
        if (text.empty()) return otherwise;
        TRY(const Decimal value, parse_number(field, text, low, high));
        return value.value();
    }
    [[nodiscard]] static Result<int> count(const char* field, const std::string& text, int low, int high,
                                           int otherwise) {
        if (text.empty()) return otherwise;
        return parse_count(field, text, low, high);
    }
    [[nodiscard]] static Result<double> share(const char* field, const std::string& text) {
        return parse_share(field, text);
    }
    [[nodiscard]] Result<double> litres(const char* field, const std::string& text, double otherwise) const {
        if (text.empty()) return otherwise;
        TRY(const Volume volume, parse_volume(field, text, m_gallons));
        return volume.in_litres();
    }

    Result<void> read_blend() {
        blend::Blend wanted;
        if (!m_request.volume.empty()) {
            TRY(const double volume, litres("volume", m_request.volume, 0.0));
            wanted.litres = volume;
        }
        TRY(wanted.aim, aim_of(m_request.aim, wanted.litres.has_value()));
        if (wanted.aim == blend::Aim::nearest && !wanted.litres)
            return fail(ErrorKind::bad_input, "volume", "How much shall it be? Say --volume \"20 L\".");
        if (wanted.aim == blend::Aim::most) wanted.litres.reset();
        for (const std::string& text : m_request.wants) {
            TRY(blend::Wish wish, read_wish(text, false, m_tables));
            wanted.wishes.push_back(std::move(wish));
        }
        for (const std::string& text : m_request.musts) {
            TRY(blend::Wish wish, read_wish(text, true, m_tables));
            wanted.wishes.push_back(std::move(wish));
        }
        if (wanted.wishes.empty())
            return fail(
                ErrorKind::bad_input, "want",
                "What shall it be like? Say --want \"ph 3.4 to 3.5\", --want \"ta 6\", --must \"alcohol at most "
                "7\".");
        TRY(wanted.most_stocks, count("most-stocks", m_request.most_stocks, 1, 1000, 0));
        TRY(wanted.least_draw, litres("least-draw", m_request.least_draw, 0.0));
        TRY(m_problem.step, litres("step", m_request.step, k_usual_step));
        m_problem.blends = {std::move(wanted)};
        return {};
    }

    Result<void> read_uses() {
        for (const std::string& text : m_request.keep) {
            TRY(const NamedAmount keep, named_amount("keep", text, m_known));
            TRY(const double volume, litres("keep", keep.amount, 0.0));
            stock(keep.stock).keep_back = volume;
        }
        for (const std::string& text : m_request.prices) {
            TRY(const NamedAmount price, named_amount("price", text, m_known));
            TRY(const double value, number("price", price.amount, 0.0, 1e6, 0.0));
            stock(price.stock).figures["cost"] = {value, 0.0};
        }
        for (const std::string& text : m_request.use) {
            TRY(const NamedAmount use, named_amount("use", text, m_known));
            TRY(const double volume, litres("use", use.amount, 0.0));
            m_problem.uses.push_back({use.stock, volume, false, false});
        }
        for (const std::string& text : m_request.whole) {
            TRY(const NamedAmount whole, named_amount("whole", text, m_known));
            m_problem.uses.push_back({whole.stock, 0.0, true, false});
        }
        for (const std::string& text : m_request.without) {
            TRY(const NamedAmount without, named_amount("without", text, m_known));
            known(without.stock).left_out = "not wanted";
        }
        double oldest = 0.0;
        if (!m_request.older_than.empty()) {
            TRY(const int days, parse_span("older-than", m_request.older_than));
            oldest = days / 365.25;
        }
        for (KnownStock& one : m_known) leave_out(one, oldest);
        return {};
    }

    void leave_out(KnownStock& one, double oldest) const {
        const blend::Stock& stock = one.stock;
        if (!one.left_out.empty()) return;
        for (const tables::CultureKind* kind : stock.cultures)
            if (!m_request.without_culture.empty() &&
                (lower(kind->id) == lower(m_request.without_culture) ||
                 lower(kind->name).find(lower(m_request.without_culture)) != std::string::npos))
                one.left_out = kind->name + " may live in it";
        for (const std::string& allergen : stock.allergens)
            if (!m_request.without_allergen.empty() &&
                lower(allergen).find(lower(m_request.without_allergen)) != std::string::npos)
                one.left_out = "it holds " + allergen;
        if (oldest > 0.0) {
            const auto age = stock.figures.find("age");
            if (age == stock.figures.end() || age->second.mean < oldest) one.left_out = "younger than asked for";
        }
    }

    [[nodiscard]] KnownStock& known(const std::string& name) {
        return *std::find_if(m_known.begin(), m_known.end(),
                             [&](const KnownStock& one) { return one.stock.name == name; });
    }
    [[nodiscard]] blend::Stock& stock(const std::string& name) { return known(name).stock; }

    void choose_stocks() {
        for (KnownStock& one : m_known) {
            if (m_request.wide && !one.stock.acids) {
                Acidity guess = wide_guess();
                if (const auto ta = one.stock.figures.find("ta"); ta != one.stock.figures.end()) guess.ta = ta->second;
                if (give_acids(one.stock, guess)) one.stock.figures.try_emplace("ta", *guess.ta);
            }
            BlendStock shown;
            shown.name = one.stock.name;
            shown.available = std::max(0.0, one.stock.litres - one.stock.keep_back);
            shown.figures = figures_text(one.stock);
            shown.left_out = one.left_out;
            if (one.left_out.empty()) {
                for (const blend::Wish& wish : m_problem.blends[0].wishes) {
                    const bool by_acids = wish.figure == blend::k_ph || wish.figure == blend::k_undissociated;
                    if (by_acids ? !one.stock.acids.has_value() : !one.stock.figures.contains(wish.figure))
                        shown.left_out += (shown.left_out.empty() ? "no " : ", ") + named(wish.figure);
                }
                if (m_problem.blends[0].aim == blend::Aim::cheapest && !one.stock.figures.contains("cost"))
                    shown.left_out += shown.left_out.empty() ? "no price" : ", price";
                if (!shown.left_out.empty()) shown.left_out += " known";
                m_problem.stocks.push_back(one.stock);
            }
            m_view.stocks.push_back(std::move(shown));
        }
        std::erase_if(m_problem.uses, [&](const blend::Use& use) {
            return std::none_of(m_problem.stocks.begin(), m_problem.stocks.end(),
                                [&](const blend::Stock& one) { return one.name == use.stock; });
        });
    }

    // What no stock at all is known for cannot be wished.
    [[nodiscard]] Result<void> check_figures() const {
        std::vector<std::string> wanted;
        for (const blend::Wish& wish : m_problem.blends[0].wishes) wanted.push_back(wish.figure);
        if (m_problem.blends[0].aim == blend::Aim::cheapest) wanted.emplace_back("cost");
        for (const std::string& figure : wanted) {
            const bool by_acids = figure == blend::k_ph || figure == blend::k_undissociated;
            const auto knows = [&](const blend::Stock& one) {
                return by_acids ? one.acids.has_value() : one.figures.contains(figure);
            };
            if (std::any_of(m_problem.stocks.begin(), m_problem.stocks.end(), knows)) continue;
            if (figure == "cost")
                return fail(ErrorKind::bad_input, "price",
                            "What does a litre cost? Say --price \"Amber 3\" for each stock.");
            std::set<std::string> known;
            for (const blend::Stock& one : m_problem.stocks) {
                if (one.acids) known.insert("ph");
                for (const auto& [name, value] : one.figures) known.insert(name);
            }
            std::string all;
            for (const std::string& name : known) all += (all.empty() ? "" : ", ") + name;
            return fail(ErrorKind::bad_input, "want",
                        "None of these stocks was ever read or scored for \"" + figure + "\".", {{"known are", all}});
        }
        return {};
    }

    [[nodiscard]] std::string figures_text(const blend::Stock& stock) const {
        std::string text;
        const auto add = [&text](const std::string& one) { text += (text.empty() ? "" : ", ") + one; };
        if (stock.acids) {
            const auto ph = chem::AcidSystem().ph(*stock.acids);
            if (ph) add("pH " + number_text(*ph, 2) + " ± " + number_text(stock.ph_sd, 2));
        }
        for (const blend::Wish& wish : m_problem.blends[0].wishes)
            if (const auto figure = stock.figures.find(wish.figure); figure != stock.figures.end()) {
                add(named(wish.figure) + " " + number_text(figure->second.mean, places_of(wish.figure)));
                if (figure->second.sd > 0.0) text += " ± " + number_text(figure->second.sd, places_of(wish.figure));
            }
        return text;
    }

    tl::unexpected<Error> told_what_was_left_out(Error error) const {
        error.facts.clear();
        for (const BlendStock& one : m_view.stocks)
            if (!one.left_out.empty()) error.facts.push_back({one.name, one.left_out});
        return tl::unexpected<Error>(std::move(error));
    }

    // --- the answer --------------------------------------------------------------------------

    Result<void> show(const blend::Found& found) {
        m_view.proven = found.proven;
        m_view.bound = found.bound;
        m_view.rounding = std::max(0.0, found.rounding);
        std::vector<blend::Made> made;
        for (std::size_t i = 0; i < found.recipes.size(); ++i) {
            const blend::Recipe& recipe = found.recipes[i];
            TRY(BlendRecipe shown, shown_recipe(i == 0 ? "best" : "another", recipe.made[0], recipe.cost));
            m_view.recipes.push_back(std::move(shown));
            made.push_back(recipe.made[0]);
        }
        m_view.cost = m_view.recipes.front().cost;
        if (m_request.surest) TRY_VOID(add_surest(made));
        TRY_VOID(add_sheet(made));
        say_words();
        add_cautions();
        draft(made.front());
        return {};
    }

    [[nodiscard]] std::vector<double> litres_by_stock(const blend::Made& made) const {
        std::vector<double> litres(m_problem.stocks.size(), 0.0);
        for (const blend::Part& part : made.parts) litres[part.stock] = part.litres;
        return litres;
    }

    Result<BlendRecipe> shown_recipe(std::string name, const blend::Made& made, double cost) const {
        const blend::Blend& wanted = m_problem.blends[0];
        TRY(const blend::Chance chance, blend::chance_of(m_problem, wanted, litres_by_stock(made)));
        BlendRecipe shown;
        shown.name = std::move(name);
        shown.litres = made.litres;
        shown.cost = cost;
        shown.inside = chance.inside;
        for (const blend::Part& part : made.parts)
            shown.parts.push_back({m_problem.stocks[part.stock].name, part.litres, part.litres / made.litres});
        for (const blend::Wish& wish : wanted.wishes) {
            const auto value = made.figures.find(wish.figure);
            if (value == made.figures.end()) continue;
            const bool missed = std::any_of(made.off.begin(), made.off.end(),
                                            [&](const blend::Off& off) { return off.figure == wish.figure; });
            shown.figures.push_back({named(wish.figure), unit_of(wish.figure), wanted_text(wish), value->second,
                                     chance.sd.at(wish.figure), chance.by_wish.at(wish.figure), missed});
        }
        for (const auto& [figure, value] : made.figures) {
            const bool wished = std::any_of(wanted.wishes.begin(), wanted.wishes.end(),
                                            [&](const blend::Wish& wish) { return wish.figure == figure; });
            if (!wished && figure != blend::k_undissociated)
                shown.figures.push_back({named(figure), unit_of(figure), "", value, 0.0, 1.0, false});
        }
        add_refermentation(made, shown);
        return shown;
    }

    void add_refermentation(const blend::Made& made, BlendRecipe& shown) const {
        const blend::Refermentation left = blend::refermentation_of(m_problem.stocks, made);
        shown.points = left.points;
        shown.co2_volumes = left.volumes;
        if (!left.known) {
            shown.ferments = "The gravity or the wort of a part is not known, so what may still ferment is not either.";
            return;
        }
        if (left.culture.empty() || left.points < 0.2) {
            shown.ferments = "Nothing that is known to live in it takes it lower.";
            return;
        }
        shown.ferments = left.culture + " may take it down by " + number_text(left.points, 1) + " points: up to " +
                         number_text(left.volumes, 1) + " volumes of CO2 and " + number_text(left.abv, 1) +
                         " % vol more";
        if (left.from_days && left.until_days)
            shown.ferments += ", within " + number_text(*left.from_days, 0) + " to " +
                              number_text(*left.until_days, 0) + " days at its liking, later when cooler";
        shown.ferments += ". Blend it cold and drink it soon from a keg, or let it finish under an air lock first.";
    }

    Result<void> add_surest(const std::vector<blend::Made>& made) {
        std::optional<blend::Surest> best;
        for (const blend::Made& one : made) {
            TRY(blend::Surest surest, blend::surest_from(m_problem, litres_by_stock(one)));
            if (!best || surest.inside > best->inside) best = std::move(surest);
        }
        TRY(BlendRecipe shown, shown_recipe("surest", best->made, best->cost));
        m_view.recipes.push_back(std::move(shown));
        return {};
    }

    Result<void> add_sheet(const std::vector<blend::Made>& made) {
        if (m_request.glass.empty()) return {};
        blend::TrialWish wish;
        TRY(const double glass, litres("glass", m_request.glass, 0.1));
        wish.glass_ml = glass * 1000.0;
        if (!m_request.neighbours.empty()) {
            TRY(wish.step, share("neighbours", m_request.neighbours));
        }
        TRY(const double seed, number("seed", m_request.seed, 0.0, 1e9, 1.0));
        wish.seed = static_cast<std::uint64_t>(seed);
        wish.neighbours = made.size() == 1 || !m_request.neighbours.empty();
        TRY(const blend::TrialSheet sheet, blend::trial_sheet(m_problem.stocks, made, wish));
        for (const blend::Glass& glass_of : sheet.glasses) {
            BlendGlass shown{glass_of.code, glass_of.what, {}};
            for (const blend::Pour& pour : glass_of.pours)
                shown.pours.emplace_back(m_problem.stocks[pour.stock].name, pour.ml);
            m_view.glasses.push_back(std::move(shown));
        }
        return {};
    }

    void say_words() {
        const BlendRecipe& best = m_view.recipes.front();
        const blend::Aim aim = m_problem.blends[0].aim;
        std::string missed;
        for (const BlendFigure& figure : best.figures)
            if (figure.missed) missed += (missed.empty() ? "" : ", ") + figure.figure;
        const bool whole_tenths = std::abs(best.litres * 10.0 - std::round(best.litres * 10.0)) < 1e-6;
        m_view.words = number_text(best.litres, whole_tenths ? 1 : 2) + " L of " + std::to_string(best.parts.size()) +
                       (best.parts.size() == 1 ? " stock" : " stocks");
        m_view.words += missed.empty() ? ", with every wish met" : ", nearest to the wishes; missed: " + missed;
        m_view.words += m_view.proven ? ". No other blend of these stocks is better"
                                      : ". The time was over before it was proven: none costs less than " +
                                            number_text(m_view.bound, 2) + ", this " + number_text(m_view.cost, 2);
        if (m_view.rounding > 0.005 && aim == blend::Aim::nearest)
            m_view.words += "; measuring it out costs " + number_text(m_view.rounding, 2) + " steps of that";
        m_view.words +=
            ". By the doubt of the stocks it ends inside all of it " + percent_text(best.inside, 0) + " of the time.";
    }

    void add_cautions() {
        m_view.cautions.push_back({"blend.taste",
                                   "Figures do not taste: blend it in a glass first, and taste it blind beside its "
                                   "neighbours."});
        if (m_view.recipes.front().points >= 0.2)
            m_view.cautions.push_back({"blend.gas",
                                       "A live culture that meets what another beer left makes gas: nothing of it is "
                                       "packaged before the gas check of the blend itself agrees. Bottles can burst."});
        m_view.cautions.push_back(
            {"blend.read",
             "Read its pH, gravity and acidity once it is blended: these are sums of estimates, and "
             "stocks that share a source are off together."});
    }

    void draft(const blend::Made& best) {
        if (m_request.into.empty()) return;
        std::vector<BlendPart> parts;
        for (const blend::Part& part : best.parts)
            parts.push_back({m_problem.stocks[part.stock].name, part.litres, part.litres / best.litres});
        DraftedBlend drafted = drafted_blend(m_request.into, parts);
        m_view.drafted = std::move(drafted.sitting);
        m_view.command = std::move(drafted.command);
    }

    std::vector<KnownStock> m_known;
    const BlendRequest& m_request;
    const tables::Tables& m_tables;
    Gallons m_gallons;
    blend::Problem m_problem;
    BlendView m_view;
};

}  // namespace

DraftedBlend drafted_blend(const std::string& into, const std::vector<BlendPart>& parts) {
    DraftedBlend drafted;
    drafted.command = "undercroft blend \"" + into + "\"";
    for (const BlendPart& part : parts) {
        if (lower(part.stock) == lower(into)) continue;
        // Three decimals could be read as thousands.
        const bool fine = std::abs(part.litres * 100.0 - std::round(part.litres * 100.0)) > 1e-6;
        const std::string volume = number_text(part.litres, fine ? 4 : 2) + " L";
        MoveLiquid move;
        move.reason = ledger::Reason::blend;
        move.from = part.stock;
        move.to = {{into, volume}};
        drafted.sitting.acts.emplace_back(std::move(move));
        drafted.command += " --from \"" + part.stock + "\" " + volume;
    }
    return drafted;
}

Result<BlendView> blend_of(std::vector<KnownStock> stocks, const BlendRequest& request, const tables::Tables& tables,
                           Gallons gallons) {
    if (stocks.empty()) return fail(ErrorKind::bad_input, "stocks", "There is nothing to blend.");
    return Planning(std::move(stocks), request, tables, gallons).plan();
}

Result<BlendView> blend_sum(const BlendRequest& request, const tables::Tables& tables, Gallons gallons) {
    std::vector<KnownStock> stocks;
    for (const std::string& text : request.stocks) {
        TRY(KnownStock known, read_stock(text, tables, gallons));
        stocks.push_back(std::move(known));
    }
    if (stocks.empty())
        return fail(ErrorKind::bad_input, "stock", "Of what? Say --stock \"Amber, 20 L, ph 3.3, ta 7\" for each.");
    return blend_of(std::move(stocks), request, tables, gallons);
}

}  // namespace undercroft::app
