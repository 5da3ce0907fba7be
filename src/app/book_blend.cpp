// Book's answer which of its stocks blend to what a keeper wants.
#include <algorithm>
#include <set>

#include "app/blend_stocks.hpp"
#include "app/bodies.hpp"
#include "app/book_look.hpp"
#include "app/names.hpp"

namespace undercroft::app {
namespace {

// "Spring wort" of a wish for the share of Spring wort.
Result<std::vector<std::string>> lots_wished_for(const BlendRequest& request, const tables::Tables& tables) {
    constexpr std::string_view k_share_of = "share of ";
    std::set<std::string> lots;
    for (const auto* list : {&request.wants, &request.musts})
        for (const std::string& text : *list) {
            TRY(const engine::blend::Wish wish, read_wish(text, false, tables));
            if (wish.figure.starts_with(k_share_of)) lots.insert(wish.figure.substr(k_share_of.size()));
        }
    return std::vector<std::string>(lots.begin(), lots.end());
}

const ledger::Liquid& liquid_of(const ledger::Cellar& cellar, engine::HolderRef holder) {
    return holder.run >= 0 ? cellar.runs[at_index(holder.run)].liquid : cellar.vessels[at_index(holder.vessel)].liquid;
}

}  // namespace

Result<BlendView> Book::plan_blend(const BlendRequest& request) {
    TRY(const Look here, look(Moment{}));
    TRY(const std::vector<std::string> lots, lots_wished_for(request, m_tables));
    const ledger::Cellar& cellar = here.cellar();
    for (const std::string& lot : lots) {
        TRY([[maybe_unused]] const Origin origin, find_origin(cellar, lot));
    }
    std::vector<engine::HolderRef> holders;
    for (const std::string& name : request.stocks) {
        TRY(const engine::HolderRef holder, holder_named(here, "stocks", name));
        if (liquid_of(cellar, holder).volume == Volume{})
            return fail(ErrorKind::impossible, "stocks", name + " is empty: there is nothing of it to blend.");
        holders.push_back(holder);
    }
    if (request.stocks.empty())
        for (std::size_t i = 0; i < cellar.vessels.size(); ++i)
            if (!cellar.vessels[i].retired && here.states().vessels[i].composition)
                holders.push_back({static_cast<int>(i), -1});
    BlendRequest resolved = request;
    if (!request.into.empty()) {
        TRY(const int into, find_vessel(cellar, "into", request.into));
        resolved.into = cellar.vessels[at_index(into)].as.name;
        // What it goes into is not drawn from, unless it was named.
        if (request.stocks.empty())
            std::erase_if(holders, [into](const engine::HolderRef& one) { return one.vessel == into; });
    }
    const Seen seen = here.seen();
    std::vector<KnownStock> stocks;
    for (const engine::HolderRef holder : holders) {
        TRY(KnownStock known, stock_of(seen, holder, lots));
        stocks.push_back(std::move(known));
    }
    TRY(BlendView view, blend_of(std::move(stocks), resolved, m_tables, gallons()));
    view.book = line();
    return view;
}

Result<TrialsView> Book::plan_trials(const TrialsRequest& request) {
    TRY(const Look here, look(Moment{}));
    const ledger::Cellar& cellar = here.cellar();
    std::vector<TrialStock> stocks;
    // The stock's own name; what a glass names is a stock too where none were named.
    const auto known = [&](std::string_view field, const std::string& name) -> Result<std::string> {
        TRY(const engine::HolderRef holder, holder_named(here, field, name));
        TrialStock stock{holder.run >= 0 ? cellar.runs[at_index(holder.run)].as.run
                                         : cellar.vessels[at_index(holder.vessel)].as.name,
                         liquid_of(cellar, holder).volume.in_litres()};
        const bool listed = std::any_of(stocks.begin(), stocks.end(),
                                        [&stock](const TrialStock& one) { return one.name == stock.name; });
        if (!listed && field == "liked" && !request.stocks.empty())
            return fail(ErrorKind::bad_input, "liked",
                        "A glass holds " + stock.name + ", which is not among the stocks that were named.");
        if (!listed) stocks.push_back(stock);
        return stock.name;
    };
    for (const std::string& name : request.stocks) TRY_VOID(known("stocks", name));
    std::vector<TypedGlass> glasses;
    for (const std::string& text : request.liked) {
        TRY(TypedGlass glass, read_glass(text));
        for (TypedPart& part : glass.parts) {
            TRY(part.name, known("liked", part.name));
        }
        glasses.push_back(std::move(glass));
    }
    if (glasses.empty())
        return fail(ErrorKind::bad_input, "liked",
                    "No glass was tasted yet: say --liked \"40 mL Sharp, 60 mL Soft: 6.5\" for each; plan blend with "
                    "--glass 100mL pours the first ones.");
    // Whichever glass was typed first, the answer is the same.
    std::sort(stocks.begin(), stocks.end(), [](const TrialStock& a, const TrialStock& b) { return a.name < b.name; });
    TrialsRequest resolved = request;
    if (!request.into.empty()) {
        TRY(const int into, find_vessel(cellar, "into", request.into));
        resolved.into = cellar.vessels[at_index(into)].as.name;
    }
    TRY(TrialsView view, trials_of(stocks, glasses, resolved, gallons()));
    view.book = line();
    return view;
}

}  // namespace undercroft::app
