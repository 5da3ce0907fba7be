// A logger read out, and the acts that say themselves when they were.
#include <algorithm>

#include "app/bodies.hpp"
#include "app/logger.hpp"
#include "app/names.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

constexpr std::size_t k_most_points = 1000;

Result<Logged> logged_of(const ReadLogger& act, const Zone& zone, Instant now) {
    return read_logger(act.bytes, act.file.empty() ? std::string("the file") : act.file, act.maps, zone, now);
}

Decimal celsius_of(double celsius, int decimals) {
    return Decimal::from_double(celsius, decimals);
}

}  // namespace

Result<LoggerFile> body_of(const ReadLogger& act, Here& here) {
    LoggerFile body;
    TRY(const engine::HolderRef holder, find_holder(here.cellar, "subject", act.subject));
    body.subject = key_of(here.cellar, holder);
    const auto slash = act.file.find_last_of('/');
    body.file = slash == std::string::npos ? act.file : act.file.substr(slash + 1);
    body.instrument = act.instrument;
    // Its last row is the time of this entry, so none lies in the future of it.
    TRY(const Logged logged, logged_of(act, here.zone, here.at));
    const Thinned kept = thinned(logged.rows, k_most_points);
    body.rows = static_cast<int>(logged.rows.size());
    body.begun = logged.rows.front().at;
    if ((logged.rows.back().at.ms - body.begun.ms) / 1000 > std::int64_t{3660} * 24 * 3600)
        return fail(ErrorKind::bad_input, act.file, "The file spans more than ten years; split it.");
    if (kept.thinned_to) body.thinned_to_c = Decimal::from_double(*kept.thinned_to, 2);
    for (const LoggedRow& row : kept.points)
        body.points.push_back(
            {static_cast<int>((row.at.ms - body.begun.ms) / 1000), celsius_of(row.celsius, logged.decimals)});
    for (std::size_t i = 0; i < here.chains.size(); ++i) {
        const Entry& entry = here.chains.entry(static_cast<int>(i));
        const auto* earlier = std::get_if<LoggerFile>(&entry.body);
        if (earlier != nullptr && entry.sequence > 0 && here.chains.superseding(entry.key) == nullptr &&
            earlier->begun == body.begun && earlier->points == body.points && earlier->subject == body.subject)
            return fail(ErrorKind::impossible, body.file,
                        "This file was read out into the book already, as #" + std::to_string(entry.sequence) + ".");
    }
    double sum = 0.0;
    double coldest = logged.rows.front().celsius;
    double warmest = coldest;
    for (const LoggedRow& row : logged.rows) {
        sum += row.celsius;
        coldest = std::min(coldest, row.celsius);
        warmest = std::max(warmest, row.celsius);
    }
    here.remarks.push_back(
        std::to_string(body.rows) + " rows from " + iso_text(day_of(body.begun, here.zone)) + " to " +
        iso_text(day_of(logged.rows.back().at, here.zone)) + ": " + number_text(coldest, 1) + " to " +
        number_text(warmest, 1) + " °C, " + number_text(sum / body.rows, 1) + " °C on average. " +
        (body.thinned_to_c ? std::to_string(body.points.size()) + " points are kept; no row left out is further than " +
                                 body.thinned_to_c->text() + " °C from the line between them."
                           : "All rows are kept."));
    const engine::LiquidState& state =
        holder.run >= 0 ? here.states.runs[at_index(holder.run)] : here.states.vessels[at_index(holder.vessel)];
    if (state.here_since && *state.here_since > body.begun)
        here.remarks.push_back("What is there came in or was stirred up on " +
                               iso_text(day_of(*state.here_since, here.zone)) + ": only rows since then count for it.");
    return body;
}

Result<std::optional<Instant>> own_time_of(const Act& act, const Zone& zone, Instant now) {
    if (const auto* calibrate = std::get_if<CalibrateInstrument>(&act);
        calibrate != nullptr && !calibrate->since.empty()) {
        const Day today = day_of(now, zone);
        TRY(const Day since, parse_day("since", calibrate->since, today));
        if (since > today)
            return fail(ErrorKind::bad_input, "since",
                        iso_text(since) + " is in the future. Today is " + iso_text(today) + ".");
        return std::optional(zone.instant_of(LocalTime{since, 0, 0}));
    }
    if (const auto* logger = std::get_if<ReadLogger>(&act)) {
        TRY(const Logged logged, logged_of(*logger, zone, now));
        return std::optional(logged.rows.back().at);
    }
    return std::optional<Instant>{};
}

}  // namespace undercroft::app
