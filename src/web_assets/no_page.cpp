#include "web_assets/web_assets.hpp"

namespace undercroft::web {

std::span<const Asset> assets() {
    return {};
}

}  // namespace undercroft::web
