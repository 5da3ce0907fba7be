#include "app/fruit.hpp"

#include <algorithm>

#include "app/bodies.hpp"
#include "chem/extract.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

namespace fruit = engine::fruit;

void add_once(std::vector<Caution>& list, const std::vector<Caution>& more) {
    for (const auto& caution : more) {
        const bool known =
            std::any_of(list.begin(), list.end(), [&](const Caution& one) { return one.id == caution.id; });
        if (!known) list.push_back(caution);
    }
}

// A dose by the packet: "0.1 mL" or "2 g", for each kilogram or litre.
Result<fruit::PacketDose> dose_from(std::string_view field, const std::string& text, Gallons gallons) {
    std::string amount = text;
    for (const char* per : {"/kg", "/L", "/l", " per kg", " per L"})
        if (amount.ends_with(per)) amount.resize(amount.size() - std::string_view(per).size());
    if (const auto mass = parse_mass(field, amount)) {
        if (*mass <= Mass{}) return fail(ErrorKind::bad_input, std::string(field), text + " is not above zero.");
        return fruit::PacketDose{mass->in_grams(), fruit::PacketDose::Unit::g};
    }
    TRY(const Volume volume, positive_volume(field, amount, gallons));
    return fruit::PacketDose{volume.in_litres() * 1000.0, fruit::PacketDose::Unit::ml};
}

Result<fruit::FruitOptions> options_from(const FruitRequest& request, Gallons gallons) {
    fruit::FruitOptions options;
    if (!request.hold_up.empty()) {
        TRY(options.hold_up_share, parse_share("hold-up", request.hold_up));
    }
    if (!request.fruit_gravity.empty()) {
        TRY(const GravityText written, parse_gravity("juice", request.fruit_gravity));
        options.juice_brix =
            written.unit == "SG" ? chem::plato_of_gravity(written.value.value()) : written.value.value();
    }
    if (!request.enzyme_dose.empty()) {
        TRY(options.enzyme_per_kg, dose_from("enzyme", request.enzyme_dose, gallons));
    }
    if (!request.nutrient_dose.empty()) {
        TRY(options.nutrient_per_l, dose_from("nutrient", request.nutrient_dose, gallons));
    }
    return options;
}

FruitWay way_of(const fruit::FruitPlan& plan) {
    FruitWay way;
    way.way = fruit::word(plan.way);
    way.title = fruit::title(plan.way);
    way.terms = plan.terms;
    way.least_vessel = plan.least_vessel;
    way.final_volume = plan.final_volume;
    way.final_alcohol = plan.final_abv;
    way.final_gravity = plan.final_gravity;
    way.gas_if_closed_volumes = plan.gas_if_closed_volumes;
    for (const auto& task : plan.dates)
        way.dates.push_back({iso_text(task.day), task.lasts.empty() ? task.name : task.name + " (" + task.lasts + ")",
                             task.done_when, task.caution});
    return way;
}

}  // namespace

Result<FruitView> fruit_view(const FruitRequest& request, const fruit::Beer& beer, const tables::Tables& tables,
                             Gallons gallons, Day today) {
    if (request.fruit.empty()) return fail(ErrorKind::bad_input, "fruit", "Which fruit? Write its name, such as plum.");
    TRY(const tables::Fruit* row, tables.find_fruit(request.fruit));
    TRY(const Mass mass, parse_mass("mass", request.mass));
    if (mass <= Mass{})
        return fail(ErrorKind::bad_input, "mass",
                    request.mass + " is not above zero. Write how much fruit, such as 3 kg.");
    TRY(const fruit::FruitOptions options, options_from(request, gallons));
    TRY(const fruit::FruitAddition addition, fruit::resolve(tables, *row, mass, options));
    FruitView view;
    view.fruit = addition.name;
    view.mass = text_of(addition.bought);
    view.fruit_terms = addition.terms;
    add_once(view.cautions, addition.cautions);
    for (const fruit::Way way : {fruit::Way::pre_fermented, fruit::Way::onto_beer}) {
        Day pull = today;
        if (request.pull.empty()) {
            TRY(const int lead, fruit::lead_days(tables, addition, way));
            pull = add_days(today, lead);
        } else {
            TRY(pull, parse_day("pull", request.pull, today));
        }
        TRY(const fruit::FruitPlan plan, fruit::plan(tables, addition, beer, way, pull));
        view.ways.push_back(way_of(plan));
        add_once(view.cautions, plan.cautions);
    }
    if (!request.pull.empty())
        for (const FruitWay& way : view.ways)
            if (!way.dates.empty() && way.dates.front().day < iso_text(today))
                view.cautions.push_back(
                    {"fruit.late", "For \"" + way.title + "\" the first task would have been on " +
                                       way.dates.front().day +
                                       ": too late for that pull, unless the fruit is that far already."});
    return view;
}

Result<FruitView> fruit_sum(const FruitRequest& request, const tables::Tables& tables, Gallons gallons, Day today) {
    fruit::Beer beer;
    if (request.volume.empty())
        return fail(ErrorKind::bad_input, "beer", "How much beer does the fruit meet? Write --beer 18 L.");
    TRY(beer.volume, positive_volume("beer", request.volume, gallons));
    beer.gravity = 1.008;
    beer.abv = 5.5;
    const bool assumed = request.gravity.empty() || request.alcohol.empty();
    if (!request.gravity.empty()) {
        TRY(const Decimal gravity, gravity_as_sg("gravity", request.gravity));
        beer.gravity = gravity.value();
    }
    if (!request.alcohol.empty()) {
        TRY(const Decimal alcohol, parse_alcohol("alcohol", request.alcohol));
        beer.abv = alcohol.value();
    }
    TRY(FruitView view, fruit_view(request, beer, tables, gallons, today));
    if (assumed)
        view.cautions.push_back({"fruit.assumed_beer", "Gravity " + number_text(beer.gravity, 3) + " and " +
                                                           number_text(beer.abv, 1) +
                                                           " % vol are assumed where you did not say."});
    return view;
}

}  // namespace undercroft::app
