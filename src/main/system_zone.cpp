#include "main/system_zone.hpp"

#include <date/tz.h>

#include <chrono>
#include <exception>

namespace undercroft {
namespace {

using std::chrono::milliseconds;
using std::chrono::minutes;
using std::chrono::seconds;

class SystemZone final : public Zone {
public:
    explicit SystemZone(const date::time_zone& zone) : m_zone(zone) {}

    [[nodiscard]] std::string name() const override { return m_zone.name(); }

    [[nodiscard]] Instant instant_of(const LocalTime& local) const override {
        const auto days = std::chrono::sys_days{local.day}.time_since_epoch();
        const date::local_seconds wall{days + minutes{local.minute_of_day} + seconds{local.second}};
        const date::local_info info = m_zone.get_info(wall);
        // In a gap: where the first period ends. Twice: by the first offset, which is the earlier.
        const date::sys_seconds at = info.result == date::local_info::nonexistent
                                         ? info.first.end
                                         : date::sys_seconds{wall.time_since_epoch() - info.first.offset};
        return {milliseconds{at.time_since_epoch()}.count()};
    }

    [[nodiscard]] LocalTime local_of(Instant instant) const override {
        const date::sys_seconds at = date::floor<seconds>(date::sys_time<milliseconds>{milliseconds{instant.ms}});
        const auto wall = at.time_since_epoch() + m_zone.get_info(at).offset;
        const auto days = std::chrono::floor<std::chrono::days>(wall);
        const auto in_day = wall - days;
        const auto whole_minutes = std::chrono::duration_cast<minutes>(in_day);
        return {Day{std::chrono::sys_days{days}}, static_cast<int>(whole_minutes.count()),
                static_cast<int>((in_day - whole_minutes).count())};
    }

private:
    const date::time_zone& m_zone;  // of the tables, which stay
};

}  // namespace

Result<std::unique_ptr<Zone>> system_zone(const std::string& name) {
    if (name == "UTC") return std::make_unique<UtcZone>();
    try {
        return std::make_unique<SystemZone>(*date::locate_zone(name));
    } catch (const std::exception&) {
        // The library tells a name it does not know and tables it cannot read apart by words only.
        return fail(ErrorKind::bad_input, "--zone", "\"" + name + "\" is not a time zone this machine knows.", {},
                    "Zones are named like Europe/Lisbon or America/Chicago; UTC always works.");
    }
}

std::string name_of_zone_here() {
    try {
        return date::current_zone()->name();
    } catch (const std::exception&) {
        return "UTC";
    }
}

}  // namespace undercroft
