// What was said and is no longer true, what rides on gear, and what is to be forgotten.
#include <utility>

#include "app/bodies.hpp"
#include "app/book_look.hpp"
#include "app/findings.hpp"
#include "app/forget.hpp"
#include "app/names.hpp"

namespace undercroft::app {

std::vector<FindingView> Book::findings_at(const Look& here) const {
    return findings_of(here.telling, m_tables, gallons(), here.cellar(), here.states());
}

Result<FindingsView> Book::findings() {
    TRY(const Look here, look(Moment{}));
    return FindingsView{line(), findings_at(here)};
}

Result<GearView> Book::gear(const Moment& moment) {
    TRY(const Look here, look(moment));
    GearView view{line(), here.telling.day_text(here.when), {}};
    const auto& vessels = here.cellar().vessels;
    for (const ledger::GearState& one : here.cellar().gear) {
        GearLine gear;
        gear.name = one.name;
        if (one.last_vessel >= 0) {
            gear.last_in = vessels[at_index(one.last_vessel)].as.name;
            gear.last_used = here.telling.day_text(one.last_used);
        }
        for (const ledger::OnGear& rider : one.cultures)
            gear.riders.push_back({here.cellar().cultures[at_index(rider.culture)].as.name,
                                   here.telling.day_text(rider.since), vessels[at_index(rider.vessel)].as.name});
        view.gear.push_back(std::move(gear));
    }
    return view;
}

Result<ledger::Picture> Book::picture_of(const std::string& entry, std::int64_t& number) {
    TRY(const Look here, look(Moment{}));
    TRY(const ledger::Entry* found, find_entry(m_entries, m_course.chains(), entry));
    number = found->sequence;
    const auto* note = std::get_if<ledger::Note>(&found->body);
    if (note == nullptr || note->picture.empty())
        return fail(ErrorKind::not_found, "entry", "#" + std::to_string(number) + " holds no picture.",
                    {{"it says", here.telling.sentence(*found)}});
    TRY(auto picture, m_journal.picture(note->picture));
    if (!picture || picture->is_forgotten())
        return fail(ErrorKind::not_found, "entry", "The picture of #" + std::to_string(number) + " was forgotten.");
    return std::move(*picture);
}

Result<PictureView> Book::picture(const std::string& entry) {
    PictureView view;
    TRY(ledger::Picture found, picture_of(entry, view.number));
    view.media_type = found.media_type;
    view.bytes = std::move(found.bytes);
    view.book = line();
    return view;
}

Result<ForgetView> Book::forget_picture(const std::string& entry, bool what_if) {
    ForgetView view;
    std::int64_t number = 0;
    TRY(const ledger::Picture found, picture_of(entry, number));
    view.what = "picture";
    view.name = "#" + std::to_string(number);
    for (const ledger::Entry& one : m_entries)
        if (const auto* note = std::get_if<ledger::Note>(&one.body))
            if (note->picture == found.commitment) ++view.entries;
    if (!what_if) TRY_VOID(m_journal.forget_picture(found.commitment));
    view.forgotten = !what_if;
    view.book = line();
    return view;
}

Result<ForgetView> Book::forget_person(const std::string& name, bool what_if) {
    TRY(const Look here, look(Moment{}));
    TRY(const ledger::Person person, find_person(m_persons, name));
    ForgetView view = look_for_person(here.telling, person);
    if (!what_if) {
        TRY_VOID(m_journal.forget(person.commitment));
        TRY_VOID(load());
    }
    view.forgotten = !what_if;
    view.book = line();
    return view;
}

}  // namespace undercroft::app
