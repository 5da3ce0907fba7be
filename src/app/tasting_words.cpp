#include "app/tasting_words.hpp"

#include "app/faults.hpp"

namespace undercroft::app {

Result<TastingWordsView> tasting_words_view(const Seen& seen, const std::string& wanted) {
    TastingWordsView view;
    view.on_faults = "A fault that time mends is over after two clear tastings at least " +
                     std::to_string(engine::taste::k_clear_days_apart) +
                     " days apart (common practice, no source); what time does not mend stands until its tasting is "
                     "corrected.";
    const auto own = own_words(seen.cellar);
    if (wanted.empty()) {
        view.attributes = seen.tables.attributes;
        view.faults = seen.tables.faults;
        for (const auto& [name, like] : own) view.own.push_back({name, like});
        return view;
    }
    const auto attribute = seen.tables.find_attribute(wanted);
    if (attribute) view.attributes.push_back(**attribute);
    const auto fault = seen.tables.find_fault(wanted);
    if (fault) view.faults.push_back(**fault);
    if (const auto it = own.find(wanted); it != own.end()) view.own.push_back({it->first, it->second});
    if (!attribute && !fault && view.own.empty()) {
        Error error = attribute.error();
        if (error.next_step.empty()) error.next_step = fault.error().next_step;
        error.where = "word";
        error.what = "\"" + wanted + "\" is neither an attribute nor a fault, nor a word of this book.";
        return tl::unexpected(std::move(error));
    }
    return view;
}

}  // namespace undercroft::app
