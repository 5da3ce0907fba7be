// Boost's network library with what its version 1.74 forgets to include under C++20. For the .cpp files of this folder.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <utility>

#include <boost/asio.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>

namespace undercroft::serve {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
using Code = boost::system::error_code;
using Tcp = boost::asio::ip::tcp;

}  // namespace undercroft::serve
