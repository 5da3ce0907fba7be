// Book's answer which of its stocks blend to what a keeper wants.
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
        const ledger::Liquid& liquid =
            holder.run >= 0 ? cellar.runs[at_index(holder.run)].liquid : cellar.vessels[at_index(holder.vessel)].liquid;
        if (liquid.volume == Volume{})
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

}  // namespace undercroft::app
