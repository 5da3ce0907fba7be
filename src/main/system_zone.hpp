// Time zones by the system's own tables.
#pragma once

#include <memory>
#include <string>

#include "base/instant.hpp"

namespace undercroft {

// By its name in the IANA data base; bad_input names an example. "UTC" needs no tables.
[[nodiscard]] Result<std::unique_ptr<Zone>> system_zone(const std::string& name);

// Where this machine says it stands; "UTC" when it does not say.
[[nodiscard]] std::string name_of_zone_here();

}  // namespace undercroft
