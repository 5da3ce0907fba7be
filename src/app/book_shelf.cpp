// Book's answers about bottles, and about what a jar on a scale proves before it is bottled.
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

Result<WeighingView> Book::weigh(const WeighRequest& request, const Moment& moment) {
    TRY(const Look here, look(moment));
    TRY(const int vessel, find_vessel(here.cellar(), "vessel", request.vessel));
    int twin = -1;
    if (!request.twin.empty()) {
        TRY(twin, find_vessel(here.cellar(), "twin", request.twin));
        if (twin == vessel)
            return fail(ErrorKind::bad_input, "twin",
                        "A jar is no twin of itself: name the like jar with water in it.");
    }
    std::optional<double> scale_g;
    if (!request.scale.empty()) {
        TRY(const Mass scale, parse_mass("scale", request.scale));
        scale_g = scale.in_grams();
        if (!(*scale_g > 0.0 && *scale_g <= 100.0))
            return fail(ErrorKind::bad_input, "scale",
                        request.scale + " is no step of a scale for jars; it is above 0 and up to 100 g.");
    }
    TRY(WeighingView view, weighing_of(here.seen(), vessel, twin, scale_g));
    view.book = line();
    return view;
}

}  // namespace undercroft::app
