// Book's answers about tastings: panels, the words of a sheet, sets under codes.
#include "app/book_look.hpp"
#include "app/names.hpp"

namespace undercroft::app {

Result<PanelView> Book::panel(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    TRY(const engine::HolderRef holder, holder_named(here, "name", name));
    TRY(PanelView view, panel_view(here.seen(), holder));
    view.book = line();
    return view;
}

Result<TastingWordsView> Book::tasting_words(const std::string& word, const Moment& moment) {
    TRY(const Look here, look(moment));
    TRY(TastingWordsView view, tasting_words_view(here.seen(), word));
    view.book = line();
    return view;
}

Result<GapView> Book::gap(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    TRY(const engine::HolderRef holder, holder_named(here, "name", name));
    TRY(GapView view, gap_view(here.seen(), holder));
    view.book = line();
    return view;
}

Result<BlindView> Book::plan_tasting(const BlindRequest& request) {
    TRY(const Look here, look(Moment{}));
    std::vector<engine::HolderRef> subjects;
    std::vector<engine::HolderRef> twice;
    for (const std::string& name : request.subjects) {
        TRY(const engine::HolderRef holder, holder_named(here, "subjects", name));
        subjects.push_back(holder);
    }
    for (const std::string& name : request.twice) {
        TRY(const engine::HolderRef holder, holder_named(here, "twice", name));
        twice.push_back(holder);
    }
    constexpr std::size_t k_made_name = 6;
    TRY(BlindView view,
        blind_view(here.seen(), subjects, twice, request, m_surroundings.random16().substr(0, k_made_name)));
    view.book = line();
    return view;
}

}  // namespace undercroft::app
