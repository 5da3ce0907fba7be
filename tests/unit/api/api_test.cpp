// Routing: which request gets which answer, without a socket.
#include "api/api.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "api/pages.hpp"
#include "tests/support/kept_book.hpp"

namespace undercroft::testing {
namespace {

using api::Answer;
using api::Needs;
using api::Request;
using nlohmann::json;

constexpr std::byte k_page[] = {std::byte{'<'}, std::byte{'p'}, std::byte{'>'}};
constexpr std::byte k_packed[] = {std::byte{0x1f}, std::byte{0x8b}};

class TheServer : public ::testing::Test {
protected:
    void SetUp() override {
        m_book.must({vessel("Amber")});
        m_book.pass(1);  // what is sent has a key of its own, older than the vessel's
        m_api = std::make_unique<api::Api>(
            api::Lent{.tables = reference_tables(),
                      .version = "1.2.3",
                      .surroundings = m_book.surroundings(),
                      .zone = m_zone,
                      .assets = {},
                      .cellar = [this](api::Which which) -> Result<api::Cellar> {
                          ++m_opened;
                          if (which == api::Which::demo)
                              return fail(ErrorKind::storage, "demo", "There is no room for it.");
                          return api::Cellar{*m_book, m_transfer, m_exporter};
                      },
                      .new_file = [](const std::string&) -> Result<std::string> { return std::string("nowhere"); },
                      .read_copy = [](const std::string&, const std::string&) -> Result<ledger::BookCopy> {
                          return fail(ErrorKind::bad_input, "line 1", "This is no export.");
                      }});
    }
    static app::RegisterVessel vessel(const std::string& name) {
        app::RegisterVessel act;
        act.name = name;
        act.capacity = "60 L";
        return act;
    }
    Answer ask(const std::string& method, const std::string& target, const std::string& body = "",
               const std::string& type = "application/json") {
        Request request;
        request.method = method;
        request.target = target;
        request.body = body;
        request.content_type = body.empty() ? "" : type;
        return m_api->answer(request, {});
    }
    Answer get(const std::string& target) { return ask("GET", "/api/v1" + target); }
    Answer post(const std::string& target, const std::string& body) { return ask("POST", "/api/v1" + target, body); }
    api::Manners manners(const std::string& method, const std::string& target) {
        Request request;
        request.method = method;
        request.target = target;
        return m_api->manners_of(request);
    }
    static json error_in(const Answer& answer) { return json::parse(answer.body).at("error"); }

    struct NoExport final : ledger::Exporter {
        Result<ledger::ExportTotals> export_to(std::ostream&) override { return export_to_file(""); }
        Result<ledger::ExportTotals> export_to_file(const std::string&) override {
            return fail(ErrorKind::storage, "export", "the disk is full.");
        }
    };
    struct NoBulk final : ledger::Bulk {
        Result<ledger::BookCopy> whole_copy() override { return fail(ErrorKind::storage, "", "none"); }
        Result<std::vector<ledger::Entry>> append_all(const std::vector<ledger::Sitting>&, std::int64_t) override {
            return fail(ErrorKind::storage, "", "none");
        }
    };

    TestBook m_book;
    UtcZone m_zone;
    NoExport m_exporter;
    NoBulk m_bulk;
    app::Transfer m_transfer{m_book.journal(), m_bulk, m_zone, reference_tables(), m_book.surroundings()};
    std::unique_ptr<api::Api> m_api;
    int m_opened = 0;
};

TEST_F(TheServer, AnswersEveryKindOfErrorWithItsStatus) {
    EXPECT_EQ(api::status_of(ErrorKind::bad_input), 400);
    EXPECT_EQ(api::status_of(ErrorKind::not_found), 404);
    EXPECT_EQ(api::status_of(ErrorKind::impossible), 409);
    EXPECT_EQ(api::status_of(ErrorKind::stale), 409);
    EXPECT_EQ(api::status_of(ErrorKind::outside_model), 422);
    EXPECT_EQ(api::status_of(ErrorKind::read_only), 403);
    EXPECT_EQ(api::status_of(ErrorKind::storage), 500);
    EXPECT_EQ(get("/export").status, 500);
    EXPECT_EQ(get("/book?cellar=demo").status, 500);
    EXPECT_EQ(get("/holdings/77").status, 404);
    EXPECT_EQ(get("/holdings/seven").status, 400);
}

TEST_F(TheServer, TellsAnAddressNobodyHasFromAMethodNobodyTakes) {
    EXPECT_EQ(get("/weather").status, 404);
    EXPECT_EQ(ask("GET", "/api/v2/book").status, 404);
    EXPECT_EQ(ask("GET", "/api").status, 404);
    const Answer answer = ask("DELETE", "/api/v1/book");
    EXPECT_EQ(answer.status, 405);
    EXPECT_EQ(answer.headers.at(0), (std::pair<std::string, std::string>{"Allow", "GET, HEAD"}));
    EXPECT_EQ(ask("HEAD", "/api/v1/book").status, 200);
    EXPECT_EQ(ask("GET", "/api/v1/../book").status, 400);
}

TEST_F(TheServer, OpensABookOnlyForWhatNeedsOne) {
    EXPECT_EQ(get("/tables").status, 200);
    EXPECT_EQ(post("/calc/gravity", R"({"gravity":"1.046"})").status, 200);
    EXPECT_EQ(post("/gas", "{").status, 400);
    EXPECT_EQ(m_opened, 0);
    EXPECT_EQ(get("/book").status, 200);
    EXPECT_EQ(m_opened, 1);
    EXPECT_EQ(manners("GET", "/api/v1/tables").needs, Needs::nothing);
    EXPECT_EQ(manners("GET", "/api/v1/cellar").needs, Needs::book);
    EXPECT_EQ(manners("POST", "/api/v1/design").needs, Needs::time);
    EXPECT_EQ(manners("GET", "/vessel/1").needs, Needs::nothing);
}

TEST_F(TheServer, TakesABodyOnlyWhereOneIsWanted) {
    EXPECT_EQ(manners("GET", "/api/v1/cellar").most_body, 0U);
    EXPECT_EQ(manners("GET", "/").most_body, 0U);
    EXPECT_EQ(manners("POST", "/api/v1/gas").most_body, std::size_t{1} << 20);
    EXPECT_GT(manners("POST", "/api/v1/sittings").most_body, ledger::k_largest_picture);
    EXPECT_EQ(manners("POST", "/api/v1/nothing").most_body, 0U);
    EXPECT_EQ(ask("POST", "/api/v1/gas", "{}", "text/plain").status, 415);
    EXPECT_EQ(ask("POST", "/api/v1/gas", "{}", "Application/JSON; charset=utf-8").status, 400);
}

TEST_F(TheServer, RefusesQuestionsThatHoldMoreThanTheyAre) {
    const Answer answer = get("/cellar?onn=2026-01-01");
    EXPECT_EQ(answer.status, 400);
    EXPECT_EQ(error_in(answer).at("where"), "onn");
    EXPECT_NE(error_in(answer).at("next_step").get<std::string>().find("\"on\""), std::string::npos);
    EXPECT_EQ(get("/cellar?on=2026-01-01&on=2026-01-02").status, 400);
    EXPECT_EQ(get("/cellar?cellar=mine").status, 400);
}

TEST_F(TheServer, NamesAFieldInTheWordsOfJson) {
    const Answer answer = post("/calc/ph", R"({"ta_end":"much"})");
    EXPECT_EQ(answer.status, 400);
    EXPECT_EQ(error_in(answer).at("where"), "ta_end");
}

TEST_F(TheServer, BooksOnceAndSaysSo) {
    const std::string sitting =
        R"({"key":"0190f3c8-0000-7000-8000-000000000001","acts":[{"act":"note","subject":"#1","words":"hoop"}]})";
    EXPECT_EQ(post("/sittings", sitting).status, 201);
    EXPECT_EQ(post("/sittings", sitting).status, 200);
    const Answer other = post("/sittings", R"({"key":"0190f3c8-0000-7000-8000-000000000001","acts":
        [{"act":"note","subject":"#1","words":"another hoop"}]})");
    EXPECT_EQ(other.status, 409);
    EXPECT_EQ(error_in(other).at("kind"), "stale");
    EXPECT_EQ(post("/sittings", R"({"acts":[{"act":"note","words":"x"}]})").status, 400);
}

TEST_F(TheServer, ShowsBothWhenTheBookHasMovedOn) {
    m_book.must({[] {
        app::EnterLot act;
        act.vessel = "Amber";
        act.name = "Wort";
        act.volume = "50 L";
        act.original_gravity = "1.048";
        return act;
    }()});
    m_book.pass(1);
    const std::string acts = R"("acts":[{"act":"loss","vessel":"Amber","volume":"1 L","cause":"sample"}])";
    const json shown = json::parse(post("/sittings/preview", "{" + acts + "}").body);
    const json expected = {{"sequence", shown.at("book").at("sequence")}, {"touched", shown.at("touched")}};
    const auto sitting = [&](int number) {
        return R"({"key":"0190f3c8-0000-7000-8000-00000000000)" + std::to_string(number) + "\"," + acts +
               ",\"expected\":" + expected.dump() + "}";
    };
    EXPECT_EQ(post("/sittings", sitting(1)).status, 201);
    const Answer late = post("/sittings", sitting(2));
    EXPECT_EQ(late.status, 409);
    const json body = json::parse(late.body);
    EXPECT_EQ(body.at("error").at("kind"), "stale");
    EXPECT_EQ(body.at("sitting").at("booked"), false);
    EXPECT_EQ(body.at("sitting").at("touched").at(0).at("volume").at("value"), "48");
    EXPECT_EQ(post("/sittings", sitting(1)).status, 200);
}

TEST(ThePage, IsSentWithItsTagAndPackedWhereThatIsTaken) {
    const web::Asset assets[] = {{"/assets/app-1a2b.js", "text/javascript; charset=utf-8", "\"a1\"", k_page, k_packed},
                                 {"/index.html", "text/html; charset=utf-8", "\"i1\"", k_page, {}}};
    const auto page = [&](const std::string& path, const std::string& encoding = "", const std::string& tag = "") {
        Request request;
        request.target = path;
        request.accept_encoding = encoding;
        request.if_none_match = tag;
        return api::page_of(request, *api::read_target(path), assets);
    };
    const auto header = [](const Answer& answer, const std::string& name) {
        for (const auto& [key, value] : answer.headers)
            if (key == name) return value;
        return std::string();
    };
    EXPECT_EQ(page("/").body, "<p>");
    EXPECT_EQ(page("/vessel/12").body, "<p>");
    EXPECT_EQ(header(page("/vessel/12"), "Cache-Control"), "no-cache");
    EXPECT_EQ(page("/nothing.js").status, 404);
    EXPECT_EQ(page("/assets/nothing.css").status, 404);
    EXPECT_EQ(header(page("/assets/app-1a2b.js"), "Cache-Control"), "public, max-age=31536000, immutable");
    EXPECT_EQ(page("/assets/app-1a2b.js").body, "<p>");
    EXPECT_EQ(page("/assets/app-1a2b.js", "gzip, br").body, "\x1f\x8b");
    EXPECT_EQ(header(page("/assets/app-1a2b.js", "gzip"), "Content-Encoding"), "gzip");
    EXPECT_EQ(page("/index.html", "gzip").body, "<p>");
    EXPECT_EQ(page("/", "", "\"i1\"").status, 304);
    EXPECT_EQ(page("/", "", "\"old\"").status, 200);
}

}  // namespace
}  // namespace undercroft::testing
