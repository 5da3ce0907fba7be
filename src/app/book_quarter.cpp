// Book's answer what several products and the soleras behind them ask for in a quarter.
#include "app/bodies.hpp"
#include "app/book_look.hpp"
#include "app/quarter.hpp"

namespace undercroft::app {

Result<QuarterView> Book::plan_quarter(const QuarterRequest& request) {
    TRY(const Look here, look(Moment{}));
    std::vector<engine::HolderRef> holders;
    for (const std::string& name : request.stocks) {
        TRY(const engine::HolderRef holder, holder_named(here, "stocks", name));
        holders.push_back(holder);
    }
    if (request.stocks.empty())
        for (std::size_t i = 0; i < here.cellar().vessels.size(); ++i)
            if (!here.cellar().vessels[i].retired && here.states().vessels[i].composition)
                holders.push_back({static_cast<int>(i), -1});
    TRY(QuarterView view, quarter_view(here.seen(), holders, request, gallons()));
    view.book = line();
    return view;
}

}  // namespace undercroft::app
