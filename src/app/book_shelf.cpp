// Book's answers about bottles.
#include "app/book_look.hpp"
#include "app/dregs.hpp"
#include "app/names.hpp"
#include "app/recall.hpp"
#include "app/shelf.hpp"

namespace undercroft::app {

Result<ShelfView> Book::shelf(const Moment& moment) {
    TRY(const Look here, look(moment));
    ShelfView view = shelf_of(here.seen());
    view.book = line();
    return view;
}

Result<RecallView> Book::recall(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    TRY(const Origin origin, find_origin(here.cellar(), name));
    RecallView view = recall_of(here.seen(), origin);
    view.book = line();
    return view;
}

Result<DregsView> Book::dregs(const std::string& name, const Moment& moment) {
    TRY(const Look here, look(moment));
    TRY(const engine::HolderRef holder, holder_named(here, "name", name));
    DregsView view = dregs_of(here.seen(), holder);
    view.book = line();
    return view;
}

}  // namespace undercroft::app
