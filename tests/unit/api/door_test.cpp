// Who may come in, and which addresses name anything.
#include "api/door.hpp"

#include <gtest/gtest.h>

#include "api/target.hpp"

namespace undercroft::testing {
namespace {

using api::read_target;
using api::Request;

bool comes_in(const std::string& host, const std::string& origin = "", int port = 8733) {
    Request request;
    request.host = host;
    request.origin = origin;
    return api::check_door(request, port).has_value();
}

TEST(TheDoor, IsOpenToTheServersOwnNamesOnly) {
    EXPECT_TRUE(comes_in("127.0.0.1:8733"));
    EXPECT_TRUE(comes_in("localhost:8733"));
    EXPECT_TRUE(comes_in("LocalHost:8733"));
    EXPECT_TRUE(comes_in("[::1]:8733"));
    EXPECT_TRUE(comes_in("localhost", "", 80));
    for (const char* host : {"", "localhost", "localhost:80", "127.0.0.1:87330", "cellar.example:8733",
                             "localhost.example:8733", "127.0.0.1.example:8733", "0.0.0.0:8733", "::1:8733"})
        EXPECT_FALSE(comes_in(host)) << host;
}

TEST(TheDoor, IsShutToForeignPages) {
    EXPECT_TRUE(comes_in("127.0.0.1:8733", "http://127.0.0.1:8733"));
    EXPECT_TRUE(comes_in("127.0.0.1:8733", "http://localhost:8733"));
    for (const char* origin : {"null", "http://cellar.example", "https://127.0.0.1:8733", "http://127.0.0.1:8734",
                               "http://127.0.0.1:8733.example", "127.0.0.1:8733"})
        EXPECT_FALSE(comes_in("127.0.0.1:8733", origin)) << origin;
}

TEST(AnAddress, IsTakenApart) {
    const auto target = read_target("/api/v1/trace?name=Old+Peat%20Row&direction=back&empty&=x");
    ASSERT_TRUE(target);
    EXPECT_EQ(target->path, "/api/v1/trace");
    EXPECT_EQ(target->segments, (std::vector<std::string>{"api", "v1", "trace"}));
    const std::vector<std::pair<std::string, std::string>> query = {
        {"name", "Old Peat Row"}, {"direction", "back"}, {"empty", ""}, {"", "x"}};
    EXPECT_EQ(target->query, query);
    EXPECT_EQ(read_target("/vessel/1/")->segments.size(), 2U);
    EXPECT_TRUE(read_target("/")->segments.empty());
}

TEST(AnAddress, ThatClimbsNamesNothing) {
    for (const char* address : {"", "x", "http://127.0.0.1/", "*", "/..", "/a/../b", "/./a", "/%2e%2e/b", "/a/%2E%2e",
                                "/a%2f..%2fb", "//a", "/a//b", "/a\\b", "/a%5cb", "/a%00b", "/%", "/%2", "/%zz"})
        EXPECT_FALSE(read_target(address)) << address;
    EXPECT_TRUE(read_target("/a..b/..c"));
}

}  // namespace
}  // namespace undercroft::testing
