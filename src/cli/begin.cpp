#include "cli/begin.hpp"

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "cli/seeded.hpp"
#include "cli/sitting.hpp"
#include "render/begun.hpp"
#include "units/amount.hpp"

namespace undercroft::cli {
namespace {

constexpr std::uint64_t k_demo_seed = 0x6b696c6e6c616e65U;  // "kilnlane"

render::BegunView view_of(const ledger::BookFacts& facts, std::string path) {
    render::BegunView view;
    view.book.name = facts.name;
    view.book.zone = facts.zone;
    view.book.invented = facts.invented;
    view.book.unit = facts.gallons == Gallons::us         ? VolumeUnit::us_gallons
                     : facts.gallons == Gallons::imperial ? VolumeUnit::imperial_gallons
                                                          : VolumeUnit::litres;
    view.path = std::move(path);
    view.gallons = facts.gallons == Gallons::us ? "us" : facts.gallons == Gallons::imperial ? "imperial" : "unset";
    return view;
}

Result<Gallons> gallons_of(const std::string& word) {
    if (word.empty()) return Gallons::unset;
    if (word == "us") return Gallons::us;
    if (word == "imperial") return Gallons::imperial;
    return fail(ErrorKind::bad_input, "--gallons", "\"" + word + "\" is no gallon known here; say us or imperial.");
}

Result<render::BegunView> begin_empty(Session& session, const Typed& t) {
    Host& host = session.host;
    if (!t.words.empty())
        return wants_words("init", "\"" + t.rest(0) + "\" is more than init asks for; the file is --book FILE.");
    TRY(const std::string path, path_of_book(session));
    ledger::BookFacts facts;
    facts.name = t.has("--name") ? t.one("--name") : std::filesystem::path(path).stem().string();
    facts.zone = t.has("--zone") ? t.one("--zone") : host.zone_here;
    TRY(facts.gallons, gallons_of(t.one("--gallons")));
    TRY(const std::unique_ptr<Zone> zone, host.zone(facts.zone));
    facts.zone = zone->name();
    facts.id = uuid4_of(host.surroundings.random16());
    facts.begun = host.surroundings.now();
    TRY(const OpenBook file, host.create_book(path, facts));
    return view_of(file.journal->facts(), path);
}

// The instant a sitting of the demo stands at: its clock shows that time while it is booked.
Result<Instant> instant_of(const std::string& when, Day as_of, const Zone& zone) {
    TRY(const DayAndTime moment, parse_day_and_time("--when", when, as_of));
    if (!moment.minute_of_day) return noon_of(moment.day, zone);
    return zone.instant_of({moment.day, *moment.minute_of_day, 0});
}

// A sitting of the demo, and where it is written.
struct Scene {
    ScriptSitting sitting;
    Instant at;
    std::size_t script = 0;
};

// The scripts tell one vessel's story each; what they say is laid in order of time.
Result<std::vector<Scene>> scenes_of(const std::vector<std::string_view>& scripts, Day as_of, const Zone& zone) {
    std::vector<Scene> scenes;
    for (std::size_t i = 0; i < scripts.size(); ++i) {
        std::istringstream lines{std::string(scripts[i])};
        Script script(lines, "", as_of);
        while (true) {
            TRY(std::optional<ScriptSitting> sitting, script.next());
            if (!sitting) break;
            TRY(const Instant at, instant_of(sitting->typed.request.when, as_of, zone));
            scenes.push_back({std::move(*sitting), at, i});
        }
    }
    std::stable_sort(scenes.begin(), scenes.end(), [](const Scene& a, const Scene& b) { return a.at < b.at; });
    return scenes;
}

Result<render::BegunView> write(Session& session, const Typed& t) {
    Host& host = session.host;
    TRY(const std::string path, path_of_book(session));
    ledger::BookFacts facts;
    facts.name = "Kiln Lane";
    facts.zone = "Europe/Lisbon";
    facts.invented = true;
    TRY(const std::unique_ptr<Zone> zone, host.zone(facts.zone));
    Day as_of = day_of(host.surroundings.now(), *zone);
    if (t.has("--as-of")) {
        TRY(as_of, parse_day("--as-of", t.one("--as-of"), as_of));
    }

    Instant clock = noon_of(as_of, *zone);
    const std::function<std::string()> chance = seeded_random16(k_demo_seed);
    app::Surroundings surroundings = host.surroundings;
    surroundings.now = [&clock] { return clock; };
    surroundings.random16 = chance;
    facts.id = uuid4_of(chance());

    TRY(const std::vector<Scene> scenes, scenes_of(host.demo_scripts, as_of, *zone));
    std::unique_ptr<Opened> opened;
    std::int64_t sittings = 0;
    std::int64_t last = 0;
    for (const Scene& scene : scenes) {
        clock = scene.at;
        if (!opened) {
            facts.begun = clock;
            TRY(OpenBook file, host.create_book(path, facts));
            TRY(Opened book, over(host, std::move(file), surroundings));
            opened = std::make_unique<Opened>(std::move(book));
        }
        auto booked = opened->book->book(scene.sitting.typed.request);
        if (!booked) {
            Error error = std::move(booked).error();
            error.facts.insert(error.facts.begin(),
                               {"script and line of the demo",
                                std::to_string(scene.script + 1) + ", " + std::to_string(scene.sitting.first_line)});
            return Failure{std::move(error)};
        }
        ++sittings;
        last = booked->entries.empty() ? last : booked->entries.back().number;
    }
    render::BegunView view = view_of(facts, path);
    view.sittings = sittings;
    view.book.sequence = last;
    return view;
}

}  // namespace

int begin_book(Session& session, const Typed& typed) {
    return session.give(begin_empty(session, typed));
}

int write_demo(Session& session, const Typed& typed) {
    return session.give(write(session, typed));
}

}  // namespace undercroft::cli
