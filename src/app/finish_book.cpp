#include "app/finish_book.hpp"

#include <algorithm>
#include <cmath>

#include "app/blend_stocks.hpp"
#include "app/bodies.hpp"
#include "app/faults.hpp"
#include "app/names.hpp"
#include "app/panel.hpp"
#include "base/letters.hpp"

namespace undercroft::app {
namespace {

namespace finish = engine::finish;
using namespace ledger;

// One taster's doubt of one attribute, of 10 points (common practice, no source).
constexpr double k_one_score_sd = 1.2;

struct Tasted {
    std::map<std::string, finish::Figure> scores;
    Instant at;
    bool any = false;
};

// The scores of one day: the newest up to `until`, or the first from `from` on.
Tasted scores_on_a_day(const Seen& seen, const std::string& key, std::optional<Instant> from, Instant until) {
    std::map<std::string, std::pair<double, int>> sums;
    std::optional<Day> day;
    Tasted found;
    for (const Entry* entry : seen.cellar.entries) {
        if (entry->at() > until || entry->at() > seen.when) break;
        if (from && entry->at() < *from) continue;
        const auto* tasting = std::get_if<Tasting>(&entry->body);
        if (tasting == nullptr || tasting->subject.text() != key || tasting->scores.empty()) continue;
        const Day on = day_of(entry->at(), seen.telling.zone);
        if (from && day && on != *day) break;
        if (!day || on != *day) sums.clear();
        day = on;
        found.at = entry->at();
        found.any = true;
        for (const auto& [attribute, score] : tasting->scores) {
            auto& sum = sums[seen.tables.attribute_id(attribute)];
            sum.first += score.value();
            ++sum.second;
        }
    }
    for (const auto& [attribute, sum] : sums)
        found.scores[attribute] = {sum.first / sum.second, k_one_score_sd / std::sqrt(double(sum.second))};
    return found;
}

// The vessel most of its beer came from last, and when; nothing for what was filled otherwise.
const Entry* came_by(const Cellar& cellar, const std::string& key, Instant when) {
    const Entry* found = nullptr;
    for (const Entry* entry : cellar.entries) {
        if (entry->at() > when) break;
        if (const auto* move = std::get_if<Move>(&entry->body))
            for (const Destination& to : move->to)
                if (to.vessel.text() == key) found = entry;
        if (const auto* lot = std::get_if<LotEnters>(&entry->body); lot != nullptr && lot->vessel.text() == key)
            found = nullptr;
    }
    return found;
}

const Target* target_for(const Seen& seen, std::string key) {
    constexpr int k_longest_way = 4;
    Instant when = seen.when;
    for (int i = 0; i < k_longest_way; ++i) {
        const Target* target = nullptr;
        for (const Entry* entry : seen.cellar.entries) {
            if (entry->at() > seen.when) break;
            const auto* one = std::get_if<Target>(&entry->body);
            if (one != nullptr && one->subject.text() == key) target = one;
        }
        if (target != nullptr) return target;
        const Entry* by = came_by(seen.cellar, key, when);
        if (by == nullptr) return nullptr;
        key = std::get<Move>(by->body).from.text();
        when = by->at();
    }
    return nullptr;
}

// mg O2 per litre and year through the wall, by material and size (published figures: Sparrow 2005, from memory; Junqua
// 2021).
double oxygen_of(const VesselJoins& vessel) {
    const double litres = vessel.capacity.in_litres();
    const std::string material = lower(vessel.material);
    constexpr double k_small = 60.0;
    constexpr double k_foeder = 1000.0;
    if (material == "oak" || material == "wood") return litres < k_small ? 32.9 : litres < k_foeder ? 12.1 : 1.0;
    if (material == "plastic") return litres < k_small ? 314.0 : 12.1;
    return 0.5;  // steel, glass: gasket and air lock
}

std::vector<engine::blend::Stock> partners_of(const Seen& seen, engine::HolderRef holder, const FinishRequest& request,
                                              Result<void>& said) {
    std::vector<engine::HolderRef> holders;
    for (const std::string& name : request.with) {
        const auto found = find_holder(seen.cellar, "with", name);
        if (!found) {
            said = tl::unexpected(found.error());
            return {};
        }
        holders.push_back(*found);
    }
    if (request.with.empty())
        for (std::size_t i = 0; i < seen.cellar.vessels.size(); ++i) {
            const VesselState& vessel = seen.cellar.vessels[i];
            if (!vessel.retired && vessel.as.role != VesselRole::solera && seen.states.vessels[i].composition &&
                int(i) != holder.vessel)
                holders.push_back({int(i), -1});
        }
    std::vector<engine::blend::Stock> partners;
    for (const engine::HolderRef one : holders) {
        auto known = stock_of(seen, one, {});
        if (!known) {
            said = tl::unexpected(known.error());
            return {};
        }
        // Beer with a fault of its own mends nothing.
        const auto faults = faults_of(seen.cellar, seen.tables, seen.telling, key_of(seen.cellar, one), seen.when);
        if (request.with.empty() && !faults.empty()) continue;
        partners.push_back(std::move(known->stock));
    }
    return partners;
}

std::string how_of(const Seen& seen, const Decide& body) {
    for (const tables::Technique& one : seen.tables.techniques) {
        const char* way = one.way == tables::FruitWay::onto_beer       ? "onto_beer"
                          : one.way == tables::FruitWay::pre_fermented ? "pre_fermented"
                                                                       : "";
        if (one.id == body.technique && body.way == way) {
            const std::string dose = finish::dose_text(one, body.dose.value());
            return one.name + (dose.empty() ? "" : ", " + dose);
        }
    }
    return body.technique;
}

tables::FruitWay way_from(const std::string& word) {
    return word == "onto_beer"       ? tables::FruitWay::onto_beer
           : word == "pre_fermented" ? tables::FruitWay::pre_fermented
                                     : tables::FruitWay::none;
}

}  // namespace

Result<FinishBasis> finish_basis(const Seen& seen, engine::HolderRef holder, const FinishRequest& request,
                                 Gallons gallons) {
    if (holder.run >= 0)
        return fail(ErrorKind::impossible, "subject",
                    seen.cellar.runs[at_index(holder.run)].as.run + " is packaged: what is in a bottle is finished.");
    const VesselState& vessel = seen.cellar.vessels[at_index(holder.vessel)];
    if (vessel.liquid.volume == Volume{})
        return fail(ErrorKind::impossible, "subject", vessel.as.name + " is empty: there is nothing to finish.");
    FinishBasis basis;
    basis.subject = vessel.as.name;
    basis.today = day_of(seen.when, seen.telling.zone);
    TRY(KnownStock known, stock_of(seen, holder, {}));
    finish::Portion& portion = basis.portion;
    portion.beer = std::move(known.stock);
    const std::string key = key_of(seen.cellar, holder).text();
    TRY(const PanelView panel, panel_view(seen, holder));
    for (const TastedFigure& one : panel.now) portion.beer.figures[one.attribute] = {one.mean, one.sd};
    // A jar that nobody tasted holds what was tasted where it came from.
    std::string source = key;
    Instant until = seen.when;
    while (panel.now.empty()) {
        const Entry* by = came_by(seen.cellar, source, until);
        if (by == nullptr) break;
        source = std::get<Move>(by->body).from.text();
        until = by->at();
        const Tasted there = scores_on_a_day(seen, source, std::nullopt, until);
        for (const auto& [attribute, score] : there.scores) portion.beer.figures[attribute] = score;
        if (there.any) break;
    }
    if (!request.volume.empty()) {
        TRY(const Volume volume,
            volume_from("volume", request.volume, vessel.liquid.volume, vessel.liquid.volume, gallons));
        if (volume > vessel.liquid.volume)
            return fail(ErrorKind::impossible, "volume",
                        vessel.as.name + " holds " + seen.telling.volume(vessel.liquid.volume) + ", less than that.");
        portion.beer.litres = volume.in_litres();
    }
    if (vessel.as.role != VesselRole::solera) portion.vessel_litres = vessel.as.capacity.in_litres();
    portion.oxygen_mg_per_l_year = oxygen_of(vessel.as);
    constexpr double k_sour_from = 4.5;  // g/L as lactic (own choice)
    const auto ta = portion.beer.figures.find("ta");
    portion.sour =
        finish::has_bacteria(portion) || (ta != portion.beer.figures.end() && ta->second.mean >= k_sour_from);
    for (const FaultMeaning& fault :
         faults_of(seen.cellar, seen.tables, seen.telling, key_of(seen.cellar, holder), seen.when)) {
        const auto row = seen.tables.find_fault(fault.id);
        portion.faults.push_back(row ? **row : own_fault(fault.id, fault.action));
    }
    if (const Target* target = target_for(seen, key))
        for (const TargetFigure& one : target->figures) {
            engine::blend::Wish wish;
            wish.figure = one.figure;
            if (one.low) wish.range.low = one.low->value();
            if (one.high) wish.range.high = one.high->value();
            wish.weight = one.weight.value();
            // The step of a figure is that of a wish for it.
            if (const auto like = read_wish(one.figure + " at least 1", false, seen.tables)) wish.unit = like->unit;
            basis.target.push_back(wish);
        }
    Result<void> said{};
    basis.partners = partners_of(seen, holder, request, said);
    if (!said) return tl::unexpected(said.error());
    std::vector<FinishedPortion> portions;
    const std::vector<finish::Learned> learned = finish::learned_from(seen.tables, observed_in(seen, portions));
    basis.effects = finish::effects_with(seen.tables.effects, learned);
    basis.taught = int(learned.size());
    return basis;
}

std::vector<finish::Observed> observed_in(const Seen& seen, std::vector<FinishedPortion>& portions) {
    std::vector<finish::Observed> all;
    for (const Entry* entry : seen.cellar.entries) {
        if (entry->at() > seen.when) break;
        const auto* decided = std::get_if<Decide>(&entry->body);
        if (decided == nullptr) continue;
        const std::string key = decided->subject.text();
        FinishedPortion portion;
        portion.number = entry->sequence;
        portion.day = seen.telling.day_text(entry->at());
        portion.subject = seen.telling.name_of(decided->subject);
        portion.technique = decided->technique;
        portion.way = decided->way;
        portion.how = how_of(seen, *decided);
        portion.inside = decided->inside.value();
        // Half of the contact is the least that tells; later decisions about the vessel end this one.
        constexpr double k_ms_in_day = 86'400'000.0;
        const auto later = [&](double days) { return Instant{entry->at().ms + std::int64_t(days * k_ms_in_day)}; };
        const Instant from = later(std::max(1.0, decided->days.value() / 2.0));
        portion.taste_from = seen.telling.day_text(later(std::max(1.0, decided->days.value())));
        Instant until = seen.when;
        std::vector<std::string> places{key};
        for (const Entry* next : seen.cellar.entries) {
            if (next->at() <= entry->at() || next->at() > seen.when) continue;
            if (const auto* other = std::get_if<Decide>(&next->body);
                other != nullptr && other->subject.text() == key) {
                until = Instant{next->at().ms - 1};
                break;
            }
            if (const auto* run = std::get_if<Package>(&next->body); run != nullptr && run->from.text() == key)
                places.push_back(next->key.text());
            if (const auto* move = std::get_if<Move>(&next->body); move != nullptr && move->from.text() == key)
                for (const Destination& to : move->to) places.push_back(to.vessel.text());
        }
        Tasted after;
        std::string in;
        for (const std::string& place : places) {
            const Tasted there = scores_on_a_day(seen, place, from, until);
            if (there.any && (!after.any || there.at < after.at)) {
                after = there;
                in = place;
            }
        }
        if (after.any) {
            portion.tasted = seen.telling.day_text(after.at);
            if (const auto place = EntryKey::from_text(in)) portion.tasted_in = seen.telling.name_of(*place);
            finish::Quantities beer;
            for (const ForecastFigure& one : decided->forecast) {
                if (one.figure == "ta") beer[finish::k_acidity_row] = one.before.value();
                if (one.figure == "ibu") beer["bitterness_IBU"] = one.before.value();
            }
            for (const ForecastFigure& one : decided->forecast) {
                const auto came = after.scores.find(one.figure);
                if (came == after.scores.end()) continue;
                CameFigure figure{one.figure,
                                  one.before.value(),
                                  one.after.value(),
                                  one.after_sd.value(),
                                  came->second.mean,
                                  came->second.sd,
                                  false};
                constexpr double k_nine_of_ten = 1.645;
                figure.within = std::abs(figure.came - figure.forecast) <=
                                k_nine_of_ten * std::hypot(figure.forecast_sd, figure.came_sd);
                portion.figures.push_back(figure);
                finish::Observed it;
                it.technique = decided->technique;
                it.way = way_from(decided->way);
                it.attribute = one.figure;
                it.dose = {decided->dose.value(), double(after.at.ms - entry->at().ms) / k_ms_in_day};
                it.sour = decided->sour;
                it.before = {one.before.value(), one.before_sd.value()};
                it.after = came->second;
                it.beer = beer;
                it.forecast = finish::Figure{one.after.value(), one.after_sd.value()};
                it.when = portion.tasted;
                it.what = portion.tasted_in;
                all.push_back(std::move(it));
            }
        }
        portions.push_back(std::move(portion));
    }
    std::reverse(portions.begin(), portions.end());
    return all;
}

LearnedView learned_view(const Seen& seen) {
    LearnedView view;
    view.on = seen.telling.day_text(seen.when);
    view.effects = finish::learned_from(seen.tables, observed_in(seen, view.portions));
    int tasted = 0;
    int figures = 0;
    int within = 0;
    for (const FinishedPortion& one : view.portions) {
        tasted += one.tasted.empty() ? 0 : 1;
        for (const CameFigure& figure : one.figures) {
            ++figures;
            within += figure.within ? 1 : 0;
        }
    }
    if (view.portions.empty()) {
        view.words = "No finish was decided yet.";
    } else {
        view.words = std::to_string(view.portions.size()) +
                     (view.portions.size() == 1 ? " finish was decided, " : " finishes were decided, ") +
                     std::to_string(tasted) + " tasted since";
        view.words += figures == 0 ? "."
                                   : "; " + std::to_string(within) + " of " + std::to_string(figures) +
                                         " figures came within what was forecast nine times of ten.";
    }
    view.cautions.push_back(
        {"learned.blind", "Whoever knows what went in tastes what went in: taste before and after under codes."});
    return view;
}

}  // namespace undercroft::app
