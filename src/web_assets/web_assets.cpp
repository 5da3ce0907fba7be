#include "web_assets/web_assets.hpp"

#include "web_assets/table.hpp"

namespace undercroft::web {

std::span<const Asset> assets() {
    return built_page();
}

}  // namespace undercroft::web
